import { describe, expect, it } from "vitest";
import { distort, harmonicLevels } from "../../../src/simulate/monitor/distortion.js";
import { spectrumAt } from "../spectrum-at.js";

const RATE = 48_000;

function sine(frequencyHz: number, amplitude: number, samples: number): Float64Array {
  return Float64Array.from({ length: samples }, (_, n) => amplitude * Math.sin((2 * Math.PI * frequencyHz * n) / RATE));
}

/** Peak amplitude of a steady tone in the middle second, away from the cut ends. */
function amplitudeAt(samples: Float64Array, frequencyHz: number): number {
  return (2 * Math.hypot(...spectrumAt(samples.subarray(24_000, 72_000), RATE, frequencyHz))) / 48_000;
}

describe("a bent curve", () => {
  const distortion = { second: 0.03, third: -0.04 };

  it("makes of a sine the harmonics that trigonometry gives", () => {
    const bent = distort(sine(1000, 0.5, 96_000), distortion);
    const expected = harmonicLevels(distortion, 0.5);
    // The half-band filters are 100 dB true: 1e-5 of the bent part, which is 0.01 here.
    expect(Math.abs(amplitudeAt(bent, 1000) - expected.fundamental)).toBeLessThan(1e-7);
    expect(Math.abs(amplitudeAt(bent, 2000) - expected.second)).toBeLessThan(1e-7);
    expect(Math.abs(amplitudeAt(bent, 3000) - expected.third)).toBeLessThan(1e-7);
    expect(expected.second).toBeCloseTo((0.03 * 0.25) / 2, 14);
    expect(expected.third).toBeCloseTo((0.04 * 0.125) / 4, 14);
  });

  it("puts no harmonic beyond half the sample rate back among the audible frequencies", () => {
    const bent = distort(sine(19_000, 0.5, 96_000), distortion);
    // 38 kHz would fold to 10 kHz, 57 kHz to 9 kHz: 100 dB under their own level they may stay.
    expect(amplitudeAt(bent, 10_000)).toBeLessThan(harmonicLevels(distortion, 0.5).second * 1e-5);
    expect(amplitudeAt(bent, 9000)).toBeLessThan(harmonicLevels(distortion, 0.5).third * 1e-5);
  });

  it("leaves silence silent", () => {
    const sound = new Float64Array(10_000);
    sound.set(sine(1000, 0.5, 1000), 4000);
    const bent = distort(sound, distortion);
    expect(bent.subarray(0, 3800).every((value) => value === 0)).toBe(true);
    expect(bent.subarray(5200).every((value) => value === 0)).toBe(true);
  });
});
