import { describe, expect, it } from "vitest";
import { averageResponse, spreadDb } from "../../src/comparison/average-response.js";
import { type BandCurve, curveDifference, rangeLevelDb } from "../../src/comparison/band-curve.js";
import { energyMeanDb } from "../../src/dsp/energy-mean.js";
import type { Response } from "../../src/model.js";
import { THIRD_OCTAVES } from "../../src/standards/iec61260.js";

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
  const bands = THIRD_OCTAVES.filter(({ nominalHz }) => nominalHz >= 100 && nominalHz <= 5000);
  const curve = (offset: number): BandCurve => ({
    nominalHz: bands.map(({ nominalHz }) => nominalHz),
    exactHz: bands.map(({ exactHz }) => exactHz),
    levelDb: bands.map(({ nominalHz }) => (nominalHz < 200 ? -30 : nominalHz > 4000 ? 40 : 1) + offset),
  });

  it("is first minus second, over 200 Hz to 4 kHz as one figure", () => {
    const difference = curveDifference(curve(2), curve(-1));
    expect(difference.levelDb).toBeCloseTo(3, 12);
    for (const { differenceDb } of difference.bands) expect(differenceDb).toBeCloseTo(3, 12);
  });

  it("leaves what lies outside the range out of its mean", () => {
    expect(rangeLevelDb(curve(0), 200, 4000)).toBeCloseTo(1, 12);
  });

  it("is not stated over a range of which a part was not measured", () => {
    const whole = curve(0);
    const from = whole.nominalHz.indexOf(250);
    const part = {
      nominalHz: whole.nominalHz.slice(from),
      exactHz: whole.exactHz.slice(from),
      levelDb: whole.levelDb.slice(from),
    };
    expect(rangeLevelDb(part, 200, 4000)).toBeNull();
    expect(curveDifference(whole, part).levelDb).toBeNull();
  });
});
