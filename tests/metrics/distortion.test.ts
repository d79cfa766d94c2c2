import { describe, expect, it } from "vitest";
import { measureDistortion } from "../../src/metrics/distortion.js";
import { measureResponse } from "../../src/metrics/response/response.js";
import type { Distortion, SweepRecipe } from "../../src/model.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { renderSingle } from "../../src/sweep/render.js";
import { singleEvents } from "../../src/sweep/timeline.js";
import { capture, whiteNoise } from "../known-recording.js";

/** Passes the sweep through a polynomial y = x + b x^2 + c x^3 and measures what comes out. */
function distorted(recipe: SweepRecipe, b: number, c: number, noise = 0): Distortion {
  const played = renderSingle(recipe, "L");
  const hiss = whiteNoise(played.length, 3);
  const samples = played.map((x, n) => x + b * x * x + c * x * x * x + noise * hiss[n]!);
  const take = capture(recipe, singleEvents(recipe, "L"), samples, { channel: "L" }).takes[0]!;
  return measureDistortion(take.impulse, measureResponse(take.impulse, 0, null).steady, [take.harmonics])!;
}

// At 96 kHz the third harmonic of 20 kHz folds back to 36 kHz, above everything that is looked at.
const recipe = makeSweepRecipe({ durationS: 6, sampleRate: 96_000, endHz: 20_000 });
const amplitude = 10 ** (recipe.levelDbfs / 20);

describe("a memoryless distortion", () => {
  it("shows the harmonics that the power series of a sine has", () => {
    const b = 0.2;
    const c = 0.3;
    const { frequencyHz, harmonicsDb } = distorted(recipe, b, c);
    // sin^2 = (1 - cos 2x) / 2; sin^3 = (3 sin x - sin 3x) / 4.
    const fundamental = amplitude + 0.75 * c * amplitude ** 3;
    const second = 20 * Math.log10((0.5 * b * amplitude ** 2) / fundamental);
    const third = 20 * Math.log10((0.25 * c * amplitude ** 3) / fundamental);
    const at = (hz: number): number => frequencyHz.findIndex((one) => one >= hz);
    for (const hz of [40, 100, 400, 1000, 4000]) {
      // 0.1 dB: the windows' edges cut what rings beyond them.
      expect(Math.abs(harmonicsDb["2"]![at(hz)]! - second), `${hz}`).toBeLessThan(0.1);
      expect(Math.abs(harmonicsDb["3"]![at(hz)]! - third), `${hz}`).toBeLessThan(0.1);
    }
  });

  it("adds its harmonics as powers to a percentage", () => {
    const [b, c] = [0.2, 1.5];
    const { frequencyHz, thdPercent } = distorted(recipe, b, c);
    const k = frequencyHz.findIndex((hz) => hz >= 500);
    const fundamental = amplitude + 0.75 * c * amplitude ** 3;
    const expected = Math.hypot(0.5 * b * amplitude ** 2, 0.25 * c * amplitude ** 3) / fundamental;
    // 0.1 dB of each harmonic is 1.2 %.
    expect(Math.abs(thdPercent[k]! / (100 * expected) - 1)).toBeLessThan(0.012);
  });

  it("is not stated where it lies in the noise", () => {
    const { harmonicsDb } = distorted(recipe, 1e-6, 1e-6, 1e-3);
    const stated = [...harmonicsDb["2"]!, ...harmonicsDb["3"]!].filter((level) => level !== null);
    // 6 dB over the mean: what of single bands exceeds it by chance.
    expect(stated.length / (2 * harmonicsDb["2"]!.length)).toBeLessThan(0.05);
  });

  it("is not stated where the harmonic lies beyond the sweep", () => {
    const { frequencyHz, harmonicsDb } = distorted(recipe, 0.2, 0.3);
    frequencyHz.forEach((hz, k) => {
      if (2 * hz > recipe.endHz) expect(harmonicsDb["2"]![k]).toBeNull();
      if (3 * hz > recipe.endHz) expect(harmonicsDb["3"]![k]).toBeNull();
    });
  });
});
