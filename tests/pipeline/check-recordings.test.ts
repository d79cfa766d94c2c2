import { describe, expect, it } from "vitest";

import { checkRecordings, type CheckedSession } from "../../src/pipeline/check-recordings.js";
import { captureInTurn } from "../../src/pipeline/capture-in-turn.js";
import { prepareInputs } from "../../src/pipeline/inputs.js";
import { sessionSchema } from "../../src/schema/session.js";
import type { z } from "../../src/schema/zod.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { singleEvents } from "../../src/sweep/timeline.js";
import { type Path, recordPaths, rms, whiteNoise } from "../known-recording.js";
import { memoryFiles, mono, recipeFile } from "./in-memory-session.js";

const recipe = makeSweepRecipe({ durationS: 1, gapS: 0.6, leadS: 0.6, tailS: 0.4, startHz: 40, endHz: 18_000 });
const DIRECT_S = 0.005;
const HISS = 1e-5;
const reel = heard(recipe.events, 1);
const files = {
  "sweep.json": recipeFile(recipe),
  "reel.wav": mono(reel),
  // The microphone was moved before the second take: the direct sound is the same, the room's reflections are others.
  "moved.wav": mono(heard(recipe.events, 3)),
  "left.wav": mono(heard(singleEvents(recipe, "L"), 1, 9)),
};

/** A loudspeaker pair in a room at a place that the seed stands for. */
function heard(events: typeof recipe.events, place: number, hiss = place): Float64Array {
  const samples = recordPaths(recipe, events, { L: room(place), R: room(place + 100) });
  const noise = whiteNoise(samples.length, 5 + hiss);
  return samples.map((value, n) => value + HISS * noise[n]!);
}

/** The direct sound and forty reflections that decay by 60 dB in 0.2 s. */
function room(seed: number): Path[] {
  const chance = whiteNoise(80, seed);
  const reflections = Array.from({ length: 40 }, (_, n): Path => {
    const afterS = 0.002 + 0.004 * n + 0.001 * chance[n]!;
    return { delayS: DIRECT_S + Math.abs(afterS), gain: 0.08 * chance[40 + n]! * 10 ** ((-3 * afterS) / 0.2) };
  });
  return [{ delayS: DIRECT_S, gain: 0.2 }, ...reflections];
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
    const highest = reel.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    expect(checked.recordings[0]!.peakDbfs!).toBeCloseTo(20 * Math.log10(highest), 1);
    // The weaker side's sweep with its room, over the hiss below 20 kHz of 24; fades at its ends take up to 0.5 dB.
    const sweeps = recipe.events.filter(({ kind }) => kind === "sweep");
    const levels = sweeps.map(({ atSample, samples }) => {
      const from = 0.3 * recipe.sampleRate + atSample;
      return rms(reel, from, from + samples);
    });
    const expectedDb = 20 * Math.log10(Math.min(...levels) / (HISS * Math.sqrt(20 / 24)));
    expect(Math.abs(checked.recordings[0]!.signalToNoiseDb! - expectedDb)).toBeLessThan(0.6);
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
