import { describe, expect, it } from "vitest";
import { averageResponse, spreadDb } from "../../src/comparison/average-response.js";
import {
  type BandCurve,
  bandCurve,
  curveDifference,
  rangeLevelDb,
  rangeUncertaintyDb,
} from "../../src/comparison/band-curve.js";
import { energyMeanDb } from "../../src/dsp/energy-mean.js";
import type { Response } from "../../src/model.js";
import { knownMeasurement } from "./known-measurement.js";

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
  const curve = (offset: number, uncertaintyDb: number | null = 0.3): BandCurve =>
    bandCurve([
      knownMeasurement({
        bands: ({ nominalHz }) => ({
          levelDb: (nominalHz < 200 ? -30 : nominalHz > 4000 ? 40 : 1) + offset,
          levelUncertaintyDb: uncertaintyDb,
        }),
      }),
    ]);

  it("is first minus second, over 200 Hz to 4 kHz as one figure", () => {
    const difference = curveDifference(curve(2), curve(-1));
    expect(difference.levelDb).toBeCloseTo(3, 12);
    for (const { differenceDb } of difference.bands) expect(differenceDb).toBeCloseTo(3, 12);
  });

  it("of a curve and itself is zero, and known no better for that", () => {
    const difference = curveDifference(curve(2), curve(2));
    expect(difference.levelDb).toBe(0);
    expect(difference.bands.map(({ differenceDb }) => differenceDb)).toEqual(curve(2).levelDb.map(() => 0));
    expect(difference.uncertaintyDb).toBeCloseTo(0.3 * Math.SQRT2, 12);
  });

  it("is as uncertain as its two sides together: band by band, and as a whole as if all bands erred alike", () => {
    const difference = curveDifference(curve(0, 0.3), curve(0, 0.4));
    for (const { uncertaintyDb } of difference.bands) expect(uncertaintyDb).toBeCloseTo(0.5, 12);
    expect(difference.uncertaintyDb).toBeCloseTo(0.5, 12);
  });

  it("keeps its value where an uncertainty is not known, and has none", () => {
    const difference = curveDifference(curve(2), curve(-1, null));
    expect(difference.levelDb).toBeCloseTo(3, 12);
    expect(difference.uncertaintyDb).toBeNull();
    expect(difference.bands[0]!.uncertaintyDb).toBeNull();
  });

  it("of pairs is known better than that of single loudspeakers, the louder side counting more", () => {
    const side = (levelDb: number) =>
      knownMeasurement({ bands: () => ({ levelDb, levelUncertaintyDb: 0.2, noiseDb: -60 }) });
    // Equal sides: 0.2 / sqrt 2. Powers 1 and 1/4 with equal uncertainty: 0.2 * sqrt(1 + 1/16) / (5/4).
    expect(bandCurve([side(0), side(0)]).uncertaintyDb[3]).toBeCloseTo(0.2 / Math.SQRT2, 12);
    const quarter = 10 * Math.log10(0.25);
    expect(bandCurve([side(0), side(quarter)]).uncertaintyDb[3]).toBeCloseTo((0.2 * Math.sqrt(17)) / 5, 12);
    expect(bandCurve([side(0), side(quarter)]).noiseDb[3]).toBeCloseTo(-60, 12);
  });

  it("leaves what lies outside the range out of its mean", () => {
    expect(rangeLevelDb(curve(0), 200, 4000)).toBeCloseTo(1, 12);
    const loudDoubt = { ...curve(0), uncertaintyDb: curve(0).exactHz.map((hz) => (hz > 4200 ? 9 : 0.3)) };
    expect(rangeUncertaintyDb(loudDoubt, 200, 4000)).toBeCloseTo(0.3, 12);
  });

  it("is not stated over a range of which a part was not measured", () => {
    const whole = curve(0);
    const from = whole.nominalHz.indexOf(250);
    const part: BandCurve = {
      nominalHz: whole.nominalHz.slice(from),
      exactHz: whole.exactHz.slice(from),
      levelDb: whole.levelDb.slice(from),
      uncertaintyDb: whole.uncertaintyDb.slice(from),
      noiseDb: whole.noiseDb.slice(from),
    };
    expect(rangeLevelDb(part, 200, 4000)).toBeNull();
    expect(rangeUncertaintyDb(part, 200, 4000)).toBeNull();
    expect(curveDifference(whole, part).levelDb).toBeNull();
  });
});
