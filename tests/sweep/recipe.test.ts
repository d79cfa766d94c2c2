import { describe, expect, it } from "vitest";
import { forwardReal, transformSize } from "../../src/dsp/fft.js";
import { synthesiseSweep } from "../../src/dsp/sweep-signal.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";

describe("a synchronised sweep", () => {
  // Published: reference notes section 8, computed from Novak et al. 2010/2015; printed to 1e-6 s.
  it.each([
    [10, 1.45, 10.016245],
    [5, 0.7, 4.835429],
  ])("asked for %d s from 20 Hz to 20 kHz grows by e in %d s and lasts %d s", (durationS, growthS, lengthS) => {
    const recipe = makeSweepRecipe({ durationS });
    expect(recipe.growthS).toBeCloseTo(growthS, 12);
    // Half the last digit printed.
    expect(Math.abs(recipe.lengthS - lengthS)).toBeLessThanOrEqual(0.5e-6);
  });

  it.each([
    { durationS: 0.7, startHz: 30, endHz: 18_000, sampleRate: 44_100 },
    { durationS: 12.3, startHz: 17, endHz: 40_000, sampleRate: 96_000 },
    { durationS: 3, startHz: 20, endHz: 20_000, sampleRate: 192_000 },
  ])("has a whole number of cycles per growth constant: %o", (options) => {
    const recipe = makeSweepRecipe(options);
    const cycles = recipe.startHz * recipe.growthS;
    // Two roundings of a product near 100.
    expect(Math.abs(cycles - Math.round(cycles))).toBeLessThan(1e-12 * Math.max(1, cycles));
    expect(recipe.growthS * Math.log(recipe.endHz / recipe.startHz)).toBeCloseTo(recipe.lengthS, 12);
  });

  it("ends at 0.45 of the rate at 44.1 kHz unless told otherwise", () => {
    expect(makeSweepRecipe({ sampleRate: 44_100 }).endHz).toBe(19_845);
    expect(makeSweepRecipe({ sampleRate: 48_000 }).endHz).toBe(20_000);
  });

  it("begins to fade in no more than a third of an octave under its start, and fades out under half the rate", () => {
    const recipe = makeSweepRecipe();
    const fadeStartHz = recipe.startHz * Math.exp(-recipe.fadeInS / recipe.growthS);
    const fadeEndHz = recipe.endHz * Math.exp(recipe.fadeOutS / recipe.growthS);
    expect(fadeStartHz).toBeGreaterThanOrEqual(recipe.startHz * 2 ** (-1 / 3));
    expect(fadeEndHz).toBeLessThan(0.5 * recipe.sampleRate);
    const samples = synthesiseSweep(recipe);
    // A raised cosine begins and ends within one sample of nothing.
    expect(Math.abs(samples[0]!)).toBe(0);
    expect(Math.abs(samples.at(-1)!)).toBeLessThan(1e-6);
  });

  it("has its level as the peak of a sine", () => {
    const peak = synthesiseSweep(makeSweepRecipe({ durationS: 1, levelDbfs: -12 })).reduce((a, b) =>
      Math.max(a, Math.abs(b)),
    );
    // Crests at 20 Hz are sampled 2400 times a cycle: cos(pi / 2400) is 1 - 9e-7.
    expect(20 * Math.log10(peak)).toBeCloseTo(-12, 4);
  });

  it("falls by 3 dB per octave in spectrum, as an exponential sweep must", () => {
    const recipe = makeSweepRecipe({ durationS: 2 });
    const samples = synthesiseSweep(recipe);
    const size = transformSize(samples.length);
    const spectrum = forwardReal(samples, size);
    const density = (hz: number): number => {
      let sum = 0;
      const from = Math.round((hz / 2 ** 0.5 / recipe.sampleRate) * size);
      const to = Math.round(((hz * 2 ** 0.5) / recipe.sampleRate) * size);
      for (let k = from; k < to; k++) sum += spectrum[2 * k]! ** 2 + spectrum[2 * k + 1]! ** 2;
      return sum / (to - from);
    };
    const amplitude = 10 ** (recipe.levelDbfs / 20);
    for (const hz of [100, 1000, 8000]) {
      // Stationary phase: |X|^2 = (a/2)^2 L / f in seconds squared; the mean of 1/f over the octave is ln 2 / (f / sqrt 2).
      const expected = (amplitude / 2) ** 2 * (recipe.growthS / hz) * (Math.LN2 * Math.SQRT2) * recipe.sampleRate ** 2;
      // Fresnel ripple averages out to about the inverse of the cycles in the octave.
      expect(10 * Math.log10(density(hz) / expected)).toBeCloseTo(0, 1);
    }
  });

  it.each([
    [{ endHz: 22_000 }, "--end"],
    [{ sampleRate: 22_050 }, "--rate"],
    [{ durationS: 1000 }, "--duration"],
    [{ levelDbfs: 3 }, "--level"],
    [{ repeats: 1.5 }, "--repeats"],
    [{ startHz: Number.NaN }, "--start"],
    [{ startHz: 1, durationS: 0.5 }, "--duration"],
    [{ startHz: 500 }, "--start"],
    [{ endHz: 300 }, "--end"],
  ])("refuses %o and names the option", (options, where) => {
    expect(() => makeSweepRecipe(options)).toThrow(expect.objectContaining({ where }) as Error);
  });
});
