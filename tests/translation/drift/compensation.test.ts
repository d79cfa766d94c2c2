import { describe, expect, it } from "vitest";
import { compensationOf, inMix } from "../../../src/translation/drift/compensation.js";
import { DRIFT } from "../../../src/translation/limits.js";

describe("The share of a monitor's colour that ends up in a mix", () => {
  it("is by default what adaptation and references leave of it", () => {
    const { compensation, compensationRange } = compensationOf(undefined);
    // The rounding of one multiplication.
    expect(compensation).toBeCloseTo(DRIFT.unadapted.value * (1 - DRIFT.referenceUse.value), 12);
    expect(compensationRange).toEqual([0.3, 0.8]);
  });

  it("falls with the use of references, and its range follows when it leaves the default's", () => {
    expect(compensationOf(undefined, 0.5).compensation).toBeCloseTo(0.4, 12);
    expect(compensationOf(undefined, 1)).toEqual({ compensation: 0, compensationRange: [0, 0.8] });
    expect(compensationOf(0.9, 0.5)).toEqual({ compensation: 0.9, compensationRange: [0.3, 0.9] });
  });

  it("has no range where all is inverted", () => {
    expect(compensationOf(1)).toEqual({ compensation: 1, compensationRange: [1, 1] });
  });
});

describe("What goes into a mix", () => {
  it.each([
    [4, 0.6, -2.4],
    [-4, 0.6, 1.2],
    [10, 0.5, -3],
    [-30, 0.5, 1.5],
    [10, 1, -10],
    [-30, 1, 30],
    [0, 0.6, 0],
  ])("of %d dB at a share of %d is %d dB", (deviationDb, compensation, expected) => {
    // Products of decimals: rounding only.
    expect(inMix(deviationDb, compensation)).toBeCloseTo(expected, 12);
  });
});
