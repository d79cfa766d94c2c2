import { describe, expect, it } from "vitest";
import { averageResponse, spreadDb } from "../../src/comparison/average-response.js";
import { type BandCurve, curveDifference, rangeLevelDb } from "../../src/comparison/band-curve.js";
import { energyMeanDb } from "../../src/comparison/energy-mean.js";
import type { Response } from "../../src/model.js";

function response(levelDb: number | null, uncertaintyDb = 0.2): Response {
  return {
    frequencyHz: [1000],
    levelDb: [levelDb],
    toneDb: [levelDb],
    directDb: [null],
    phaseDeg: [null],
    groupDelayS: [null],
    uncertaintyDb: [uncertaintyDb],
    validHz: [1000, 1000],
  };
}

describe("an average of levels", () => {
  it("is one of energy: 0 dB and minus infinity would be -3 dB, 0 and 10 dB are 7.4 dB", () => {
    expect(energyMeanDb([0, -300])).toBeCloseTo(-3.0103, 4);
    expect(energyMeanDb([0, 10])).toBeCloseTo(10 * Math.log10(5.5), 12);
  });

  it("is not stated where one of them is not known", () => {
    expect(energyMeanDb([0, null])).toBeNull();
    expect(averageResponse([response(0), response(null)]).levelDb).toEqual([null]);
  });

  it("of two equal responses is known better by the square root of two", () => {
    const average = averageResponse([response(-3), response(-3)]);
    expect(average.levelDb[0]).toBeCloseTo(-3, 12);
    expect(average.uncertaintyDb[0]).toBeCloseTo(0.2 / Math.SQRT2, 12);
  });

  it("over positions has the standard deviation between them as its spread", () => {
    expect(spreadDb([response(1), response(3), response(5)])[0]).toBeCloseTo(2, 12);
    expect(spreadDb([response(1)])).toEqual([null]);
  });
});

describe("a difference of curves", () => {
  const curve = (offset: number): BandCurve => ({
    nominalHz: [100, 200, 1000, 4000, 5000],
    exactHz: [100, 199.5, 1000, 3981, 5012],
    levelDb: [0, 1, 2, 3, 40].map((level) => level + offset),
  });

  it("is first minus second, over 200 Hz to 4 kHz as one figure", () => {
    const difference = curveDifference(curve(2), curve(-1));
    expect(difference.levelDb).toBeCloseTo(3, 12);
    expect(difference.bands.map(({ differenceDb }) => differenceDb)).toEqual([3, 3, 3, 3, 3]);
  });

  it("leaves what lies outside the range out of its mean", () => {
    expect(rangeLevelDb(curve(0), 200, 4000)).toBeCloseTo(energyMeanDb([1, 2, 3])!, 12);
  });
});
