import { describe, expect, it } from "vitest";
import { fractionalShift } from "../../../src/dsp/fractional-shift.js";
import { forwardReal, inverseReal } from "../../../src/dsp/fft.js";
import { findArrival } from "../../../src/impulse/arrival.js";
import { arrivalEnvelope } from "../../../src/metrics/reflections/energy-time.js";
import { findReflections } from "../../../src/metrics/reflections/find-reflections.js";
import type { ImpulseResponse, Reflection } from "../../../src/model.js";
import { makeSweepRecipe } from "../../../src/sweep/recipe.js";
import { capture, recordPaths } from "../../known-recording.js";

const sampleRate = 48_000;

/** A band-limited pulse, 20 Hz-20 kHz, and its mirror images. */
function pulses(images: readonly { delayS: number; gain: number }[]): ImpulseResponse {
  const size = 32_768;
  const pulse = new Float64Array(size);
  const at = 4800.37;
  pulse[4800] = 1;
  const spectrum = forwardReal(pulse, size);
  for (let k = 0; k <= size / 2; k++) {
    const hz = (k * sampleRate) / size;
    const gain = hz < 20 || hz > 23_000 ? 0 : hz < 20_000 ? 1 : 0.5 + 0.5 * Math.cos((Math.PI * (hz - 20_000)) / 3000);
    spectrum[2 * k]! *= gain;
    spectrum[2 * k + 1]! *= gain;
  }
  const direct = fractionalShift(inverseReal(spectrum), at - 4800);
  const samples = Float64Array.from(direct);
  for (const { delayS, gain } of images) {
    const moved = fractionalShift(direct, delayS * sampleRate);
    for (let n = 0; n < size; n++) samples[n]! += gain * moved[n]!;
  }
  // The arrival as the program itself finds it, reflection and all.
  const arrival = findArrival(samples, sampleRate, [at - 1000, at + 1000])!;
  return { samples, sampleRate, arrivalSample: arrival.lagSamples, polarity: 1, sweptHz: [20, 20_000], noise: null };
}

const list = (impulse: ImpulseResponse): Reflection[] => findReflections(arrivalEnvelope(impulse), 343);
const GAIN = 10 ** (-12 / 20);

describe("an isolated reflection at -12 dB", () => {
  const delays = (from: number, to: number, step: number): number[] =>
    Array.from({ length: Math.round((to - from) / step) + 1 }, (_, n) => from + n * step);

  it.each([1, -1])("from 1.5 ms on is placed to 10 us and 0.4 dB, alone, polarity %d", (sign) => {
    for (const delayS of delays(0.0015, 0.045, 0.000_737)) {
      const found = list(pulses([{ delayS, gain: sign * GAIN }]));
      expect(found, `${delayS}`).toHaveLength(1);
      expect(Math.abs(found[0]!.delayS - delayS)).toBeLessThan(10e-6);
      expect(Math.abs(found[0]!.levelDb + 12)).toBeLessThan(0.4);
      expect(found[0]!.polarity).toBe(sign);
      expect(found[0]!.close).toBe(false);
    }
  });

  it.each([1, -1])("from 0.4 ms on is placed to 30 us and 1.5 dB and marked close under 1 ms, polarity %d", (sign) => {
    for (const delayS of delays(0.0004, 0.0015, 0.000_013)) {
      const found = list(pulses([{ delayS, gain: sign * GAIN }]));
      expect(found, `${delayS}`).toHaveLength(1);
      expect(Math.abs(found[0]!.delayS - delayS)).toBeLessThan(30e-6);
      expect(Math.abs(found[0]!.levelDb + 12), `${delayS}`).toBeLessThan(1.5);
      if (Math.abs(delayS - 0.001) > 30e-6) expect(found[0]!.close).toBe(delayS < 0.001);
    }
  });

  it("has its first notch at 1/(2 tau), an inverted one at 1/tau, and its path is the speed of sound times tau", () => {
    const [upright] = list(pulses([{ delayS: 0.002, gain: GAIN }]));
    const [inverted] = list(pulses([{ delayS: 0.002, gain: -GAIN }]));
    // Reference notes section 9: 2 ms, 250 Hz; 10 us in 2 ms are 0.5 %.
    expect(upright!.firstNotchHz / 250).toBeCloseTo(1, 2);
    expect(inverted!.firstNotchHz / 500).toBeCloseTo(1, 2);
    expect(upright!.pathDifferenceM).toBeCloseTo(0.686, 2);
  });

  it("is found through a sweep as well", () => {
    const recipe = makeSweepRecipe({ durationS: 3 });
    const path = [
      { delayS: 0.006, gain: 0.3 },
      { delayS: 0.0083, gain: -0.3 * GAIN },
    ];
    const { takes } = capture(recipe, recipe.events, recordPaths(recipe, recipe.events, { L: path, R: path }));
    const found = list(takes[0]!.impulse);
    expect(found).toHaveLength(1);
    expect(Math.abs(found[0]!.delayS - 0.0023)).toBeLessThan(10e-6);
    expect(Math.abs(found[0]!.levelDb + 12)).toBeLessThan(0.4);
  });
});

describe("a pulse without reflections", () => {
  it("has none listed: its own ringing in the band filter is not taken for a surface", () => {
    expect(list(pulses([]))).toEqual([]);
  });
});
