import { expect, it } from "vitest";
import { nearestUsual } from "../../src/impulse/usual-ratios.js";

it.each([
  [44.1 / 48, 48_000, "44.1 kHz taken for 48 kHz"],
  [48 / 44.1, 44_100, "48 kHz taken for 44.1 kHz"],
  [2, 48_000, "96 kHz taken for 48 kHz"],
  [1.001, 48_000, "film pull-down, 1001 to 1000"],
  [24 / 25, 48_000, "24 film frames in a second played as 25"],
])("A recording that lasts %d times as long at %d Hz is %s", (ratio, sampleRate, name) => {
  expect(nearestUsual(ratio * (1 + 5e-6), sampleRate, 2e-5)?.name).toBe(name);
});

it("A ratio that no pair of usual rates gives has no name", () => {
  expect(nearestUsual(1.01, 48_000, 2e-5)).toBeNull();
  expect(nearestUsual(1.0005, 48_000, 2e-5)).toBeNull();
});
