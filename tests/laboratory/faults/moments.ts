import { LEAD_S, labRecipe } from "../laboratory.js";

/** File sample so many seconds after the left sweep has begun, where the laboratory's recordings have it. */
export function inLeftSweep(seconds: number): number {
  const sweep = labRecipe.events.find(({ kind, channel }) => kind === "sweep" && channel === "L")!;
  return Math.round((LEAD_S + seconds) * labRecipe.sampleRate) + sweep.atSample;
}

/** File second so many seconds after the left sweep has begun. */
export function leftSweepS(seconds: number): number {
  return inLeftSweep(seconds) / labRecipe.sampleRate;
}
