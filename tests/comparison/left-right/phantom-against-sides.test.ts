import { describe, expect, it } from "vitest";
import { phantomAgainstSides } from "../../../src/comparison/left-right/phantom-against-sides.js";
import type { Measurement } from "../../../src/model.js";
import { knownMeasurement } from "../known-measurement.js";

const level = (levelDb: number, levelUncertaintyDb: number | null = 0.2): Measurement =>
  knownMeasurement({ bands: ({ nominalHz }) => (nominalHz > 400 ? {} : { levelDb, levelUncertaintyDb }) });
const decibels = (pressure: number): number => 20 * Math.log10(pressure);
const first = (...args: Parameters<typeof phantomAgainstSides>) => phantomAgainstSides(...args)[0]!;

describe("the phantom centre", () => {
  it("of two equal sides in step is 0 dB against either", () => {
    const found = first(level(decibels(2)), level(0), level(0), 0);
    // A few roundings.
    expect(found.againstLeftDb).toBeCloseTo(0, 12);
    expect(found.againstRightDb).toBeCloseTo(0, 12);
  });

  it("of sides a quarter of a period apart loses 3 dB", () => {
    expect(first(level(decibels(Math.SQRT2)), level(0), level(0), 0).againstLeftDb).toBeCloseTo(
      decibels(1 / Math.SQRT2),
      12,
    );
  });

  it("is held against each side by that side's own level", () => {
    const found = first(level(decibels(1.5)), level(0), level(decibels(0.5)), 0);
    expect(found.againstLeftDb).toBeCloseTo(decibels(0.75), 12);
    expect(found.againstRightDb).toBeCloseTo(decibels(1.5), 12);
  });

  it("in step is no worse known than its own measurement and a side's, each for itself", () => {
    expect(first(level(decibels(2)), level(0), level(0), 0).uncertaintyDb).toBeCloseTo(0.2 * Math.SQRT2, 12);
  });

  it("is known the worse the more the sides cancel", () => {
    // Sum of a tenth: the sides' errors, 0.2 sqrt 2 of one pressure, are ten times as large of the sum.
    const found = first(level(decibels(0.1)), level(0), level(0), 0);
    expect(found.uncertaintyDb).toBeCloseTo(Math.hypot(2 * Math.SQRT2, 0.2), 12);
  });

  it("does not know where its sides cancel when the time between them is uncertain", () => {
    const uncertain = first(level(decibels(0.1)), level(0), level(0), 1e-4).uncertaintyDb!;
    // 25.1 Hz: 2 pi f 0.1 ms = 0.0158 of a pressure, of a sum of a tenth 100 times that over 1 in neper.
    const timeDb = (20 / Math.LN10) * 2 * Math.PI * 10 ** 1.4 * 1e-4 * 100;
    expect(uncertain).toBeCloseTo(Math.hypot(2 * Math.SQRT2, timeDb, 0.2), 9);
    expect(first(level(6), level(0), level(0), null).uncertaintyDb).toBeNull();
  });

  it("has no uncertainty where a side has none, and no value where nothing was measured", () => {
    expect(first(level(6), level(0, null), level(0), 0).uncertaintyDb).toBeNull();
    const above = phantomAgainstSides(level(6), level(0), level(0), 0).find(({ nominalHz }) => nominalHz === 1000)!;
    expect(above).toEqual({ nominalHz: 1000, againstLeftDb: null, againstRightDb: null, uncertaintyDb: null });
  });
});
