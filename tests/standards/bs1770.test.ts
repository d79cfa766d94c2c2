import { describe, expect, it } from "vitest";

import { kWeighting, type SecondOrderSection } from "../../src/standards/bs1770.js";

/** ITU-R BS.1770-4, Annex 1, Tables 1 and 2 (from memory, all printed digits). */
const SHELF_48K = {
  b: [1.53512485958697, -2.69169618940638, 1.19839281085285],
  a: [-1.69065929318241, 0.73248077421585],
};
const HIGH_PASS_48K = { b: [1, -2, 1], a: [-1.99004745483398, 0.99007225036621] };

function levelDb({ b, a }: SecondOrderSection, phase: number): number {
  const [c1, s1, c2, s2] = [Math.cos(phase), Math.sin(phase), Math.cos(2 * phase), Math.sin(2 * phase)];
  const above = Math.hypot(b[0] + b[1] * c1 + b[2] * c2, b[1] * s1 + b[2] * s2);
  const below = Math.hypot(1 + a[0] * c1 + a[1] * c2, a[0] * s1 + a[1] * s2);
  return 20 * Math.log10(above / below);
}

function weightingDb(frequencyHz: number, sampleRate: number): number {
  return kWeighting(sampleRate).reduce(
    (sum, section) => sum + levelDb(section, (2 * Math.PI * frequencyHz) / sampleRate),
    0,
  );
}

describe("K-weighting", () => {
  it("has the printed coefficients at 48 kHz", () => {
    const [shelf, highPass] = kWeighting(48_000);
    for (const [made, printed] of [
      [shelf, SHELF_48K],
      [highPass, HIGH_PASS_48K],
    ] as const) {
      // Half the last printed digit, and the parameters' own last digit.
      made.b.forEach((value, n) => {
        expect(Math.abs(value - printed.b[n]!)).toBeLessThan(1e-12);
      });
      made.a.forEach((value, n) => {
        expect(Math.abs(value - printed.a[n]!)).toBeLessThan(1e-12);
      });
    }
  });

  it.each([44_100, 88_200, 96_000, 192_000])("weighs at %i Hz as at 48 kHz", (sampleRate) => {
    for (const frequencyHz of [20, 38, 100, 500, 997, 2000, 4000])
      // The bilinear transform bends frequencies: by (pi f / fs)^2 / 3, at most 2.3 % at 4 kHz, where the shelf is nearly level.
      expect(Math.abs(weightingDb(frequencyHz, sampleRate) - weightingDb(frequencyHz, 48_000))).toBeLessThan(0.05);
  });

  it("refuses a rate that has no room for the shelf", () => {
    expect(() => kWeighting(4000)).toThrow(RangeError);
  });
});
