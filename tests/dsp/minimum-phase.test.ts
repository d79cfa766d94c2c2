import { describe, expect, it } from "vitest";

import { minimumPhase } from "../../src/dsp/minimum-phase.js";

const RATE = 48_000;

function levelDb(taps: Float64Array, hz: number): number {
  let re = 0;
  let im = 0;
  for (const [n, tap] of taps.entries()) {
    re += tap * Math.cos((2 * Math.PI * hz * n) / RATE);
    im -= tap * Math.sin((2 * Math.PI * hz * n) / RATE);
  }
  return 10 * Math.log10(re ** 2 + im ** 2);
}

describe("A filter of least delay", () => {
  it("is a bare gain where the curve is flat", () => {
    const taps = minimumPhase(() => -20, RATE, 64);
    // Rounding of three transforms of 256: far below 1e-12.
    expect(taps[0]).toBeCloseTo(0.1, 12);
    expect(Math.max(...taps.subarray(1).map(Math.abs))).toBeLessThan(1e-13);
  });

  it("is the first-order low-pass that has the magnitude asked for", () => {
    // H(z) = 1 / (1 - 0.5 z^-1) has its pole inside the circle and no zero outside: it is of minimum phase by itself.
    const magnitude = (hz: number): number => {
      const w = (2 * Math.PI * hz) / RATE;
      return -10 * Math.log10(1.25 - Math.cos(w));
    };
    const taps = minimumPhase(magnitude, RATE, 256);
    // 0.5^1024 of the cepstrum folds over: nothing; what is left is rounding.
    for (let n = 0; n < 20; n++) expect(taps[n]).toBeCloseTo(0.5 ** n, 12);
  });

  it("holds a shelf from 25 Hz up", () => {
    const shelf = (hz: number): number => 4 / (1 + (hz / 100) ** 4);
    const taps = minimumPhase(shelf, RATE, 8192);
    // The fade of the last 43 ms cuts what a shelf at 100 Hz has left there: under 0.01 dB.
    for (const hz of [25, 50, 100, 200, 1000, 10_000])
      expect(Math.abs(levelDb(taps, hz) - shelf(hz))).toBeLessThan(0.01);
  });

  it("has nearly all its energy in its first millisecond", () => {
    const taps = minimumPhase((hz) => 6 * Math.sin(hz / 3000), RATE, 512);
    const total = taps.reduce((sum, tap) => sum + tap * tap, 0);
    // A linear-phase filter has half its energy after its middle; this one nearly all in a millisecond.
    expect(taps.subarray(0, 48).reduce((sum, tap) => sum + tap * tap, 0) / total).toBeGreaterThan(0.99);
  });

  it("refuses a curve that is nowhere", () => {
    expect(() => minimumPhase(() => -Infinity, RATE, 64)).toThrow(RangeError);
  });
});
