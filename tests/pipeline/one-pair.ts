import type { Analysis } from "../../src/pipeline.js";
import type { Session } from "../../src/model.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { recordPaths } from "../known-recording.js";
import { analyseInMemory, mono, recipeFile } from "./in-memory-session.js";

const recipe = makeSweepRecipe({ durationS: 2, gapS: 0.8, leadS: 0.6, tailS: 0.4 });
const path = [
  { delayS: 0.006, gain: 0.2 },
  { delayS: 0.016, gain: 0.1 },
];
const recording = mono(recordPaths(recipe, recipe.events, { L: path, R: path }));

type Stated = Partial<Pick<Session, "translation">> & {
  playbackClasses?: (Omit<NonNullable<Session["playbackClasses"]>[number], "mono"> & { mono?: boolean })[];
};

/** A session with one pair, whose tone a reflection colours, and what it states about its translation. */
export function onePair(stated: Stated, files: Record<string, Uint8Array> = {}): Promise<Analysis> {
  return analyseInMemory(
    {
      schema: "carrywell/session/1",
      sweep: "sweep.json",
      reference: "flat",
      monitors: [{ id: "mains", role: "main" }],
      positions: [{ id: "mix", kind: "mix" }],
      recordings: [{ file: "mains.wav", monitor: "mains", position: "mix" }],
      ...stated,
    },
    { "sweep.json": recipeFile(recipe), "mains.wav": recording, ...files },
  );
}
