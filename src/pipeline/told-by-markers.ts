import type { FoundEvent } from "../impulse/event.js";
import { markerAgreement } from "../impulse/marker-agreement.js";
import { type MarkerLikeness, markerLikeness } from "../impulse/marker-likeness.js";
import type { CaptureInput } from "./capture-input.js";
import type { Traces } from "./disturbances.js";
import { isOutOfPlace } from "./findings/signal.js";
import type { Surroundings, SweepAnswer } from "./hear-sweep.js";

/** A sweep with what came back. */
export interface Answered {
  readonly sweep: FoundEvent;
  readonly answer: SweepAnswer;
}

interface ToldByMarkers extends Pick<Traces, "markerDb" | "markersAlike"> {
  /** The sweep that the markers were held against. */
  readonly anchor: Answered | null;
}

/** What the markers tell of their loudspeaker, by the first sweep that can be held against them. */
export function toldByMarkers(
  { marker }: CaptureInput,
  { signal, found, noise, clockRatio }: Surroundings,
  heard: readonly Answered[],
): ToldByMarkers {
  let markerDb: number | null = null;
  let markersAlike: MarkerLikeness | null = null;
  let anchor: Answered | null = null;
  if (!marker || !noise) return { markerDb, markersAlike, anchor };
  for (const one of heard) {
    const { sweep, answer } = one;
    const { impulse } = answer.cut;
    const own = found.filter(({ event }) => event.kind === "marker" && event.channel === sweep.event.channel);
    markerDb ??= markerAgreement(signal, impulse, own, marker, noise);
    const placed = { atSample: sweep.event.atSample, arrivalSample: answer.arrivalSample };
    markersAlike ??= markerLikeness(signal, impulse, placed, own, marker, noise, clockRatio);
    if (markersAlike) anchor ??= one;
  }
  return { markerDb, markersAlike, anchor };
}

/**
 * Whether nothing was lost that would make a step of a sweep: both markers stand where one sweep of their loudspeaker puts them, and
 * this one follows that one as it was played, to half the step.
 */
export function isInPlace(
  { sweep, answer }: Answered,
  stepS: number,
  { markersAlike, anchor }: ToldByMarkers,
  { signal, clockRatio }: Surroundings,
): boolean {
  if (!markersAlike || !anchor || markersAlike.gainDb === null || isOutOfPlace(markersAlike.lateS)) return false;
  const played = (sweep.event.atSample - anchor.sweep.event.atSample) * clockRatio;
  const off = answer.arrivalSample - anchor.answer.arrivalSample - played;
  return Math.abs(off) < (Math.abs(stepS) * signal.sampleRate) / 2;
}
