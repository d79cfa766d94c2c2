import { describe, expect, it } from "vitest";

import { checkRecordings, type CheckedSession } from "../../src/pipeline/check-recordings.js";
import { captureInTurn } from "../../src/pipeline/capture-in-turn.js";
import { prepareInputs } from "../../src/pipeline/inputs.js";
import { sessionSchema } from "../../src/schema/session.js";
import type { z } from "../../src/schema/zod.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { singleEvents } from "../../src/sweep/timeline.js";
import { type Path, recordPaths, whiteNoise } from "../known-recording.js";
import { memoryFiles, mono, recipeFile } from "./in-memory-session.js";

const recipe = makeSweepRecipe({ durationS: 1, gapS: 0.6, leadS: 0.6, tailS: 0.4, startHz: 40, endHz: 18_000 });
const files = {
  "sweep.json": recipeFile(recipe),
  "reel.wav": heard(recipe.events, [{ delayS: 0.005, gain: 0.2 }]),
  // The microphone was moved before the second take: another loudspeaker's distance, and a strong reflection.
  "moved.wav": heard(recipe.events, [
    { delayS: 0.006, gain: 0.2 },
    { delayS: 0.0065, gain: 0.1 },
  ]),
  "left.wav": heard(singleEvents(recipe, "L"), [{ delayS: 0.005, gain: 0.2 }]),
};

function heard(events: typeof recipe.events, paths: readonly Path[]): Uint8Array {
  const samples = recordPaths(recipe, events, { L: paths, R: paths });
  const noise = whiteNoise(samples.length, 5);
  return mono(samples.map((value, n) => value + 1e-4 * noise[n]!));
}

const base = {
  schema: "carrywell/session/1" as const,
  sweep: "sweep.json",
  monitors: [{ id: "mains", role: "main" as const }],
  positions: [{ id: "mix", kind: "mix" as const }],
  recordings: [{ file: "reel.wav", monitor: "mains", position: "mix" }],
};

async function check(changes: Partial<z.input<typeof sessionSchema>>): Promise<CheckedSession> {
  const session = sessionSchema.parse({ ...base, ...changes });
  const inputs = await prepareInputs(session, memoryFiles(files));
  return checkRecordings(session, { capture: captureInTurn(inputs) }, inputs.calibration);
}

const codes = ({ findings }: Pick<CheckedSession, "findings">): string[] => findings.map(({ code }) => code);

describe("A quick check", () => {
  it("of a whole reel finds nothing wrong and nothing missing", async () => {
    const checked = await check({});
    expect(codes(checked)).toEqual([]);
    expect(checked.recordings.map(({ usable, channels, findings }) => ({ usable, channels, findings }))).toEqual([
      { usable: true, channels: ["L", "R"], findings: [] },
    ]);
    // A fifth of a sweep at -12 dBFS is 0.05; the hiss (1e-4, under five times that at its highest) adds 1 %: 0.1 dB.
    const peakDbfs = -12 + 20 * Math.log10(0.2);
    expect(Math.abs(checked.recordings[0]!.peakDbfs! - peakDbfs)).toBeLessThan(0.1);
    // RMS of the sweep, 0.05 / sqrt(2), over the hiss below 20 kHz of 24, 1e-4 * sqrt(20 / 24): 51.8 dB; fades take up to 0.5 dB.
    expect(Math.abs(checked.recordings[0]!.signalToNoiseDb! - 51.8)).toBeLessThan(0.6);
  });

  it("says which monitor was recorded on one side only, not at the mix position, or not at all", async () => {
    const checked = await check({
      monitors: [...base.monitors, { id: "nears", role: "nearfield" }, { id: "cube", role: "check" }],
      positions: [...base.positions, { id: "sofa", kind: "room" }, { id: "door", kind: "room" }],
      recordings: [...base.recordings, { file: "left.wav", monitor: "nears", position: "sofa", channel: "L" }],
    });
    expect(checked.recordings.every(({ usable }) => usable)).toBe(true);
    expect(checked.findings.map(({ code, monitors, severity }) => [code, monitors[0], severity])).toEqual([
      ["one-channel", "nears", "info"],
      ["mix-not-recorded", "nears", "info"],
      ["monitor-not-recorded", "cube", "info"],
      ["places-not-recorded", undefined, "info"],
    ]);
  });

  it("does not call one loudspeaker for both channels half a pair", async () => {
    const recordings = [{ file: "left.wav", monitor: "mains", position: "mix", channel: "both" as const }];
    expect(codes(await check({ recordings }))).toEqual([]);
  });

  it("holds takes against each other, and names the moved microphone with both of them", async () => {
    const recordings = [...base.recordings, { file: "moved.wav", monitor: "mains", position: "mix", take: 2 }];
    const checked = await check({ recordings });
    for (const recording of checked.recordings) {
      expect(recording.usable).toBe(true);
      expect(codes(recording)).toEqual(["position-moved", "position-moved"]);
    }
    expect(checked.recordings[0]!.findings[0]!.recordings).toEqual(["reel.wav", "moved.wav"]);
  });
});
