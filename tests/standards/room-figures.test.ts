import { expect, it } from "vitest";
import { nominalMeanTime } from "../../src/standards/bs1116.js";
import { curvaturePercent, nonLinearityPerMille } from "../../src/standards/iso3382.js";
import { speedOfSound } from "../../src/standards/speed-of-sound.js";

// ITU-R BS.1116-3 formula, evaluated by hand.
it.each([
  [30, 0.167],
  [80, 0.232],
  [100, 0.25],
  [200, 0.315],
])("a listening room of %i m3 should reverberate for %f s", (volumeM3, timeS) => {
  // Half the last printed digit.
  expect(Math.abs(nominalMeanTime(volumeM3) - timeS)).toBeLessThan(0.0005);
});

// ISO 9613-1.
it.each([
  [20, 343.2],
  [23, 344.95],
])("sound travels at %f C with %f m/s", (temperatureC, metresPerSecond) => {
  // Half the last printed digit.
  expect(Math.abs(speedOfSound(temperatureC) - metresPerSecond)).toBeLessThan(0.005);
});

it("there is no sound at absolute zero", () => {
  expect(() => speedOfSound(-273.15)).toThrow(RangeError);
  expect(() => speedOfSound(Number.NaN)).toThrow(RangeError);
});

it("a decay whose T30 is a tenth longer than its T20 is curved by 10 %, and a straight one is straight", () => {
  // One rounding of 1.1.
  expect(curvaturePercent(1, 1.1)).toBeCloseTo(10, 12);
  expect(nonLinearityPerMille(1)).toBe(0);
});
