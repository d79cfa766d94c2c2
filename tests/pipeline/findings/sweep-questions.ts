import { excitationFromRecipe } from "../../../src/impulse/excitation.js";
import type { Recording, SweepRecipe } from "../../../src/model.js";
import { fromError } from "../../../src/pipeline/findings.js";
import type { NamedPlayed } from "../../../src/pipeline/findings/why-no-sweep.js";
import { makeSweepRecipe } from "../../../src/sweep/recipe.js";
import { recordPaths } from "../../known-recording.js";

/** A short reel; a room of one reflection for each side. */
export const recipe = makeSweepRecipe({ durationS: 2, leadS: 0.8, gapS: 0.7, tailS: 0.3 });
const ROOM = {
  L: [
    { delayS: 0.005, gain: 1 },
    { delayS: 0.009, gain: 0.3 },
  ],
  R: [
    { delayS: 0.0052, gain: 1 },
    { delayS: 0.0101, gain: 0.35 },
  ],
} as const;

/** The session's entry for a reel. */
export const entry: Recording = { file: "a.wav", monitor: "mains", position: "mix", take: 1, kind: "sweep" };

export function playedBy(made: SweepRecipe, sweepFile = "sweep.json"): NamedPlayed {
  return { excitation: excitationFromRecipe(made), timeline: made.events, marker: made, sweepFile };
}

/** @param ppm - by which the recording lasts longer than what was played, in millionths */
export function record(made: SweepRecipe, events: SweepRecipe["events"] = made.events, ppm = 0) {
  return { samples: recordPaths(made, events, ROOM, { ppm }), sampleRate: made.sampleRate };
}

/** What is told of a recording that was refused. */
export const told = (error: unknown) => fromError(error, entry.file);
