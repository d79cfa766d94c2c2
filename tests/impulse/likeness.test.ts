import { existsSync, readFileSync } from "node:fs";

import { describe, expect, it } from "vitest";

import { forwardReal, inverseReal, transformSize } from "../../src/dsp/fft.js";
import { excitationFromRecipe, excitationFromSound } from "../../src/impulse/excitation.js";
import { findEvents } from "../../src/impulse/find.js";
import { likeness } from "../../src/impulse/likeness.js";
import { decodeWav } from "../../src/recording/decode-wav.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { filtered, recordPaths, whiteNoise } from "../known-recording.js";

const recipe = makeSweepRecipe({ durationS: 2, gapS: 0.8, leadS: 0.6, tailS: 0.4 });
const { sampleRate } = recipe;
const excitation = excitationFromRecipe(recipe);
const sweepAt = recipe.events.find(({ kind }) => kind === "sweep")!.atSample;
const ofLeft = (delayS: number, gain: number): Float64Array =>
  recordPaths(recipe, recipe.events, { L: [{ delayS, gain }], R: [] }, { leadS: 0 });
const likenessOf = (samples: Float64Array): number => likeness({ samples, sampleRate }, excitation, sweepAt);

const data = new URL("../../../shared/data/", import.meta.url);
const read = (name: string): ReturnType<typeof decodeWav> =>
  decodeWav(new Uint8Array(readFileSync(new URL(name, data))), name);

describe("An electrical copy of the sweep", () => {
  it("is the sweep, whatever its gain, its polarity and its delay", () => {
    for (const [delayS, gain] of [
      [0, 1],
      [0.0101, -0.003],
      [0.02, 0.5],
    ] as const) {
      // A delay that falls between samples of 12 kHz turns 1.5 kHz by up to 22 degrees, 8 on the mean: under 1 %.
      expect(likenessOf(ofLeft(delayS, gain))).toBeGreaterThan(0.995);
    }
  });

  it("stays the sweep behind an interface's coupling capacitor, 5 Hz, and under noise of 40 dB less", () => {
    const capacitor = (hz: number): { re: number; im: number } => {
      const x = hz / 5;
      return { re: (x * x) / (1 + x * x), im: x / (1 + x * x) };
    };
    const noise = whiteNoise(2 ** 20, 3);
    const heard = filtered(ofLeft(0.003, 1), sampleRate, capacitor).map((value, n) => value + 2e-3 * noise[n]!);
    expect(likenessOf(heard)).toBeGreaterThan(0.98);
  });

  it("is nothing where nothing was recorded", () => {
    expect(likenessOf(new Float64Array(5 * sampleRate))).toBe(0);
    expect(likeness({ samples: new Float64Array(0), sampleRate }, excitation, -50_000)).toBe(0);
  });
});

describe.skipIf(!existsSync(data))("Measured (not run: ../shared/data is absent)", () => {
  it("an electrical recording of a played sweep is the sweep", () => {
    const [sent, back] = ["sweep.wav", "bypass-15.wav"].map((name) => read(`filter-chain-sweeps/${name}`));
    const sound = excitationFromSound({ samples: sent!.channels[0]!, sampleRate: sent!.sampleRate });
    const signal = { samples: back!.channels[0]!, sampleRate: back!.sampleRate };
    const event = { kind: "sweep", channel: "L", atSample: 0, samples: sound.samples().length } as const;
    const [found] = findEvents(signal, sound, [event], null).found;
    // Half-way between what was found when this was made, 0.982, and what is called electrical.
    expect(likeness(signal, sound, found!.startSample)).toBeGreaterThan(0.966);
  });

  it.each(["LR_M+000", "LR_M+030", "LR_M-030"])("a sweep through a listening room, %s, is not", (name) => {
    for (const impulse of read(`listening-room/${name}.wav`).channels) {
      // Half-way between what was found when this was made, 0.51 at most, and what is called electrical.
      expect(likenessOf(convolved(ofLeft(0, 1), impulse))).toBeLessThan(0.73);
    }
  });
});

function convolved(samples: Float64Array, impulse: ArrayLike<number>): Float64Array {
  const size = transformSize(samples.length + impulse.length);
  const [a, b] = [forwardReal(samples, size), forwardReal(Float64Array.from(impulse), size)];
  for (let k = 0; k < a.length; k += 2) {
    const [re, im] = [a[k]! * b[k]! - a[k + 1]! * b[k + 1]!, a[k]! * b[k + 1]! + a[k + 1]! * b[k]!];
    a[k] = re;
    a[k + 1] = im;
  }
  return inverseReal(a).subarray(0, samples.length);
}
