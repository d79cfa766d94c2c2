import { describe, expect, it } from "vitest";

import { excitationFromRecipe } from "../../../src/impulse/excitation.js";
import type { SweepRecipe } from "../../../src/model.js";
import type { KnownSweep } from "../../../src/pipeline/survey/known-sweep.js";
import { type SoundContent, surveySound } from "../../../src/pipeline/survey/survey-sound.js";
import { makeSweepRecipe } from "../../../src/sweep/recipe.js";
import { renderReel, renderSingle } from "../../../src/sweep/render.js";
import { singleEvents } from "../../../src/sweep/timeline.js";
import { type Path, recordPaths, whiteNoise } from "../../known-recording.js";

const recipe = makeSweepRecipe({ durationS: 1, gapS: 0.6, leadS: 0.6, tailS: 0.4, startHz: 40, endHz: 18_000 });
const other = makeSweepRecipe({ durationS: 2, gapS: 0.6, leadS: 0.6, tailS: 0.4, startHz: 40, endHz: 18_000 });
const twice = makeSweepRecipe({ durationS: 1, gapS: 0.6, leadS: 0.6, startHz: 40, endHz: 18_000, repeats: 2 });
const { sampleRate } = recipe;
const known = (file: string, made: SweepRecipe): KnownSweep => ({
  ...{ file, recipe: made, excitation: excitationFromRecipe(made) },
});
const sweeps = [known("sweep.json", recipe), known("long/sweep.json", other)];
const room: readonly Path[] = [
  { delayS: 0.005, gain: 0.2 },
  { delayS: 0.0083, gain: 0.15 },
  { delayS: 0.0131, gain: -0.12 },
  { delayS: 0.021, gain: 0.1 },
];
const reel = recordPaths(recipe, recipe.events, { L: room, R: room });
const single = recordPaths(recipe, singleEvents(recipe, "R"), { L: [], R: room });
const hiss = (length: number, level = 1e-3): Float64Array => whiteNoise(length, 9).map((value) => level * value);

function survey(
  channels: readonly Float64Array[],
  more: { sweeps?: KnownSweep[]; rate?: number; impulse?: boolean } = {},
): SoundContent {
  const audio = {
    ...{ sampleRate: more.rate ?? sampleRate, encoding: "32-bit float" },
    channels: channels.map((samples) => Float32Array.from(samples)),
  };
  return surveySound(audio, "a.wav", more.sweeps ?? sweeps, more.impulse ?? false);
}

const recording = { kind: "recording", sweep: "sweep.json", fileChannel: null, loopback: null, others: [] };

describe("The content of a sound file", () => {
  it("is a reel where both loudspeakers are heard, one sweep where the file of one was played", () => {
    expect(survey([reel])).toEqual({ ...recording, holds: "reel" });
    expect(survey([single])).toEqual({ ...recording, holds: "one sweep" });
  });

  it("is either where a reel was stopped half-way", () => {
    const [, end] = recipe.events.filter(({ kind }) => kind === "sweep").map(({ atSample }) => atSample);
    expect(survey([reel.subarray(0, end)])).toEqual({ ...recording, holds: "either" });
  });

  it("is still one sweep where each loudspeaker has two of them, and the reel four", () => {
    const repeated = [known("sweep.json", twice)];
    const events = { reel: twice.events, "one sweep": singleEvents(twice, "L") };
    for (const [holds, played] of Object.entries(events)) {
      const samples = recordPaths(twice, played, { L: room, R: room });
      expect(survey([samples], { sweeps: repeated })).toMatchObject({ kind: "recording", holds });
    }
  });

  it("is told by the sweep that is in it, of several that may have been played", () => {
    const samples = recordPaths(other, other.events, { L: room, R: room });
    expect(survey([samples])).toEqual({ ...recording, sweep: "long/sweep.json", holds: "reel" });
  });

  it("needs no channel named where all channels hold the same, or nothing", () => {
    expect(survey([reel, reel])).toEqual({ ...recording, holds: "reel" });
    expect(survey([new Float64Array(reel.length), reel])).toEqual({ ...recording, holds: "reel" });
  });

  it("is taken from the channel with the microphone, beside one that holds something else", () => {
    expect(survey([hiss(reel.length), reel])).toEqual({ ...recording, holds: "reel", fileChannel: 2 });
    const elsewhere = recordPaths(recipe, recipe.events, { L: room.slice(1), R: room.slice(0, 2) });
    expect(survey([reel, elsewhere])).toEqual({ ...recording, holds: "reel", fileChannel: 1, others: [2] });
  });

  it("has the electrical signal told from the microphone", () => {
    const wire = [{ delayS: 0.002, gain: -0.7 }];
    const electrical = recordPaths(recipe, recipe.events, { L: wire, R: wire });
    expect(survey([electrical, reel])).toEqual({ ...recording, holds: "reel", fileChannel: 2, loopback: 1 });
  });

  it("is no recording where it is the sweep as it is played", () => {
    const { L, R } = renderReel(recipe);
    expect(survey([L, R])).toEqual({ kind: "electrical" });
    expect(survey([renderSingle(recipe, "L")])).toEqual({ kind: "electrical" });
  });

  it("stays a recording where nothing but the loudspeaker is heard", () => {
    const close = [{ delayS: 0.002, gain: 0.5 }];
    const samples = recordPaths(recipe, singleEvents(recipe, "L"), { L: close, R: close });
    expect(survey([samples])).toEqual({ ...recording, holds: "one sweep" });
  });

  it("is a calibrator's tone, or an impulse response where it is called so", () => {
    const tone = hiss(5 * sampleRate, 1e-4).map(
      (value, n) => value + 0.1 * Math.sin((2 * Math.PI * 1000 * n) / sampleRate),
    );
    const { kind, toneHz } = survey([tone]) as { kind: string; toneHz: number };
    expect(kind).toBe("calibrator");
    // The calibrator's own tests say how well the tone is found.
    expect(Math.abs(toneHz - 1000)).toBeLessThan(0.1);
    const impulse = new Float64Array(sampleRate).map((_, n) =>
      n < 500 ? 0 : Math.exp(-(n - 500) / 2000) * Math.cos(0.3 * n),
    );
    expect(survey([impulse], { impulse: true })).toEqual({ kind: "impulse response" });
    expect(survey([impulse])).toMatchObject({ kind: "nothing" });
  });

  it("is nothing where the sweep is not in it, and why", () => {
    expect(survey([hiss(4 * sampleRate)])).toEqual({ kind: "nothing", reason: "the sweep is not in it" });
    expect(survey([new Float64Array(4 * sampleRate)])).toEqual({ kind: "nothing", reason: "it is silent" });
    expect(survey([reel], { rate: 44_100 })).toEqual({
      kind: "nothing",
      reason: "it is sampled at 44100 Hz, the sweep at 48000 Hz",
    });
  });
});
