import { expect, it } from "vitest";
import { decayStandardDeviation } from "../../src/standards/iso3382.js";

// ISO 3382-2:2008, formulas from memory (medium to high confidence); figures computed by hand from the formula, n = 10, N = 6:
// 0.264 s * sqrt(1.19 / 1278) and 0.165 s * sqrt(1.152 / 1278) for the first row.
it.each([
  ["octave", 1, 1000, 8.06, 4.95],
  ["octave", 1, 125, 22.79, 14.01],
  ["third octave", 3, 125, 40.03, 24.62],
] as const)(
  "six places know the decay of 0.3 s in the %s (1/%i) at %i Hz to %f ms from T20, %f ms from T30",
  (...row) => {
    const [, fraction, midbandHz, t20Ms, t30Ms] = row;
    // Half the last printed digit.
    expect(Math.abs(1000 * decayStandardDeviation("t20", 0.3, fraction, midbandHz, 6) - t20Ms)).toBeLessThan(0.005);
    expect(Math.abs(1000 * decayStandardDeviation("t30", 0.3, fraction, midbandHz, 6) - t30Ms)).toBeLessThan(0.005);
  },
);

it("four times the places know a decay twice as well", () => {
  const one = decayStandardDeviation("t30", 0.25, 1, 500, 1);
  // A few roundings.
  expect(decayStandardDeviation("t30", 0.25, 1, 500, 4) / one).toBeCloseTo(0.5, 14);
  expect(() => decayStandardDeviation("t30", 0.25, 1, 500, 0)).toThrow(RangeError);
});
