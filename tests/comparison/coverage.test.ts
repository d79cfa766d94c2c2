import { describe, expect, it } from "vitest";
import { bandCurve, curveDifference } from "../../src/comparison/band-curve.js";
import { bandsOverPositions } from "../../src/comparison/positions/bands-over-positions.js";
import type { Place } from "../../src/comparison/positions/places.js";
import { bandLevel, bandUncertainty } from "../../src/metrics/response/band-levels.js";
import { measureResponse, ONE_TAKE_FLOOR_DB } from "../../src/metrics/response/response.js";
import type { BandMetrics, ImpulseResponse, Measurement } from "../../src/model.js";
import { Random } from "../../src/simulate/random.js";
import { bandsWithin } from "../../src/standards/iec61260.js";
import { expandedUncertainty } from "../../src/standards/real-difference.js";
import { knownMeasurement } from "./known-measurement.js";

/** Share of a normal error within two of its standard deviations. */
const WITHIN_TWO = 0.9545;

/** Four standard deviations of the share that so many independent trials give. */
function chance(share: number, trials: number): number {
  return 4 * Math.sqrt((share * (1 - share)) / trials);
}

function shareWithin(errors: readonly number[]): number {
  return errors.filter((error) => Math.abs(error) <= 1).length / errors.length;
}

const normal = (random: Random): number => random.fillNormal(new Float64Array(1))[0]!;

describe("the expanded uncertainty of a difference of two pairs", () => {
  const TRIALS = 1000;
  const U_DB = 0.2;
  /** Two equal pairs, every level of which errs as `errorOf` has it; differences re their U, in one band and over the range. */
  function trials(errorOf: (random: Random) => () => number): { band: number[]; range: number[] } {
    const random = new Random(20_260_514);
    const side = (): Measurement => {
      const errorDb = errorOf(random);
      return knownMeasurement({ bands: () => ({ levelDb: errorDb(), levelUncertaintyDb: U_DB }) });
    };
    const found = { band: [] as number[], range: [] as number[] };
    for (let n = 0; n < TRIALS; n++) {
      const { bands, levelDb, uncertaintyDb } = curveDifference(
        bandCurve([side(), side()]),
        bandCurve([side(), side()]),
      );
      found.band.push(bands[9]!.differenceDb! / expandedUncertainty([bands[9]!.uncertaintyDb])!);
      found.range.push(levelDb! / expandedUncertainty([uncertaintyDb])!);
    }
    return found;
  }

  it("holds 95 % of what chance does to a band, and to the range when all of it errs alike", () => {
    const { band, range } = trials((random) => {
      const gainDb = U_DB * normal(random);
      return () => gainDb;
    });
    // Levels are not linear in power: at 0.2 dB that moves the share by far less than chance does.
    expect(Math.abs(shareWithin(band) - WITHIN_TWO)).toBeLessThan(chance(WITHIN_TWO, TRIALS));
    expect(Math.abs(shareWithin(range) - WITHIN_TWO)).toBeLessThan(chance(WITHIN_TWO, TRIALS));
  });

  it("holds all of it over the range when every band errs for itself: nobody knows which, so the larger is stated", () => {
    const { band, range } = trials((random) => () => U_DB * normal(random));
    expect(Math.abs(shareWithin(band) - WITHIN_TWO)).toBeLessThan(chance(WITHIN_TWO, TRIALS));
    // Fourteen equal bands: the error is 3.7 times smaller, and 7.5 standard deviations are never seen.
    expect(shareWithin(range)).toBe(1);
  });
});

describe("the expanded uncertainty of a mean over places", () => {
  it("holds what few places allow: with five of them 88 % and not 95, as their spread is little known itself", () => {
    const TRIALS = 1000;
    const random = new Random(7);
    const errors = Array.from({ length: TRIALS }, () => {
      const places: Place[] = Array.from({ length: 5 }, (_, n) => {
        // 0.3 dB: a mean of energy and one of decibels differ by 0.01 dB.
        const levelDb = 0.3 * normal(random);
        return {
          position: { id: `p${n}`, kind: "room" },
          channels: [knownMeasurement({ bands: () => ({ levelDb, levelUncertaintyDb: 0 }) })],
        };
      });
      const band = bandsOverPositions(places)[9]!;
      return band.levelDb! / expandedUncertainty([band.roomUncertaintyDb])!;
    });
    // Student's t with four degrees of freedom: 0.8839 within 2 (tables; 1 - 2 * 0.0581).
    expect(Math.abs(shareWithin(errors) - 0.8839)).toBeLessThan(chance(0.8839, TRIALS));
  });
});

describe("the difference of two noisy takes", () => {
  const SAMPLE_RATE = 12_000;
  const ARRIVAL = 0.5 * SAMPLE_RATE;
  const NOISE = 0.0012;
  const bands = bandsWithin(50, 5000).filter(({ fraction }) => fraction === 3);

  /** A decay of 0.25 s, in noise and with the gain that another day would have. */
  function take(clean: Float64Array, random: Random): Map<number, Partial<BandMetrics>> {
    const gain = 10 ** ((ONE_TAKE_FLOOR_DB * normal(random)) / 20);
    const noise = random.fillNormal(new Float64Array(clean.length));
    return levels({
      ...response(clean.map((value, n) => gain * value + NOISE * noise[n]!)),
      noise: {
        frequencyHz: Float64Array.of(10, SAMPLE_RATE / 2),
        powerPerSecond: Float64Array.of(NOISE ** 2 * SAMPLE_RATE, NOISE ** 2 * SAMPLE_RATE),
      },
    });
  }

  function response(samples: Float64Array): ImpulseResponse {
    return { samples, sampleRate: SAMPLE_RATE, arrivalSample: ARRIVAL, polarity: 1, sweptHz: [40, 5500], noise: null };
  }

  function levels(impulse: ImpulseResponse): Map<number, Partial<BandMetrics>> {
    const { response, steady, noiseS } = measureResponse(impulse, 0, null);
    return new Map(
      bands.map((band) => [
        band.nominalHz,
        { ...bandLevel(impulse, steady, noiseS, band, 0), levelUncertaintyDb: bandUncertainty(response, band) },
      ]),
    );
  }

  it("stays within its uncertainty 95 times in a hundred or oftener, and not by an uncertainty blown up", () => {
    const random = new Random(11);
    const decay = random.fillNormal(new Float64Array(1.5 * SAMPLE_RATE)).map((value, n) => {
      const t = (n - ARRIVAL) / SAMPLE_RATE;
      return t < 0 ? 0 : 0.05 * value * 10 ** ((-3 * t) / 0.25);
    });
    const curveOf = (read: Map<number, Partial<BandMetrics>>) =>
      bandCurve([
        knownMeasurement({ bands: ({ fraction, nominalHz }) => (fraction === 3 ? (read.get(nominalHz) ?? {}) : {}) }),
      ]);
    const errors: number[] = [];
    const TRIALS = 40;
    for (let n = 0; n < TRIALS; n++) {
      for (const band of curveDifference(curveOf(take(decay, random)), curveOf(take(decay, random))).bands) {
        const expandedDb = expandedUncertainty([band.uncertaintyDb]);
        if (band.differenceDb !== null && expandedDb !== null) errors.push(band.differenceDb / expandedDb);
      }
    }
    // One gain moves all bands of a take, so that only the takes count as independent.
    expect(shareWithin(errors)).toBeGreaterThan(WITHIN_TWO - chance(WITHIN_TWO, TRIALS));
    // Half of U is one standard deviation. Above: four standard deviations of a mean square. Below: noise in the eight
    // smoothing widths of a third octave is taken as common, which overstates by the root of eight where there is noise alone.
    const rootMeanSquare = Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / errors.length);
    expect(rootMeanSquare).toBeLessThan(0.5 * Math.sqrt(1 + 4 * Math.sqrt(2 / TRIALS)));
    expect(rootMeanSquare).toBeGreaterThan(0.5 / Math.sqrt(8));
    expect(errors.length).toBeGreaterThan(10 * TRIALS);
  });
});
