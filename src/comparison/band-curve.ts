import { energyMeanDb } from "../dsp/energy-mean.js";
import type { BandMetrics, Measurement } from "../model.js";
import { THIRD_OCTAVES } from "../standards/iec61260.js";
import { energyMeanUncertaintyDb } from "../dsp/energy-mean-uncertainty.js";

/** Levels by third octave. */
export interface BandCurve {
  readonly nominalHz: readonly number[];
  readonly exactHz: readonly number[];
  readonly levelDb: readonly (number | null)[];
  /** Standard uncertainty at this position. */
  readonly uncertaintyDb: readonly (number | null)[];
  /** What noise adds, on the same scale; null where it is not known. */
  readonly noiseDb: readonly (number | null)[];
}

export interface BandDifference {
  readonly nominalHz: number;
  readonly differenceDb: number | null;
  readonly uncertaintyDb: number | null;
}

/** Alignment range of levels, Hz. */
export const ALIGNMENT_HZ = [200, 4000] as const;

/**
 * Third-octave curve of one measurement, or the energy mean of several.
 *
 * The errors of several, such as left and right, are taken as independent: what they share is the microphone and its place,
 * and neither is part of an uncertainty at this position.
 */
export function bandCurve(measurements: readonly Measurement[]): BandCurve {
  const all = measurements.map((measurement) => measurement.bands.filter((band) => band.fraction === 3));
  const first = all[0] ?? [];
  const rows = first.map(({ nominalHz }) => {
    const bands = all.map((bands) => bands.find((band) => band.nominalHz === nominalHz));
    const of = (key: "levelDb" | "levelUncertaintyDb" | "noiseDb"): (number | null)[] =>
      bands.map((band: BandMetrics | undefined) => band?.[key] ?? null);
    const levels = of("levelDb");
    return {
      levelDb: energyMeanDb(levels),
      uncertaintyDb: energyMeanUncertaintyDb(levels, of("levelUncertaintyDb"), "independent"),
      noiseDb: energyMeanDb(of("noiseDb")),
    };
  });
  return {
    nominalHz: first.map((band) => band.nominalHz),
    exactHz: first.map((band) => band.exactHz),
    levelDb: rows.map((row) => row.levelDb),
    uncertaintyDb: rows.map((row) => row.uncertaintyDb),
    noiseDb: rows.map((row) => row.noiseDb),
  };
}

/** Energy mean over the third octaves of a range, ends included by nominal frequency; null when one was not measured. */
export function rangeLevelDb(curve: Levels, fromHz: number, toHz: number): number | null {
  return energyMeanDb(bandsBetween(curve, fromHz, toHz).map((k) => curve.levelDb[k] ?? null));
}

/**
 * Standard uncertainty of the level over a range of third octaves.
 *
 * Errors of neighbouring bands are partly common (the floor for one take is all gain, noise is all chance) and nobody knows
 * how far. They are taken as wholly common, which overstates: with independent errors the mean of fourteen equal bands
 * would be known almost four times as well.
 *
 * @returns dB; null when the level or the uncertainty of one of the bands is not known
 */
export function rangeUncertaintyDb(curve: Levels & Uncertainties, fromHz: number, toHz: number): number | null {
  const places = bandsBetween(curve, fromHz, toHz);
  return energyMeanUncertaintyDb(
    places.map((k) => curve.levelDb[k] ?? null),
    places.map((k) => curve.uncertaintyDb[k] ?? null),
    "common",
  );
}

type Levels = Pick<BandCurve, "nominalHz" | "levelDb">;
type Uncertainties = Pick<BandCurve, "uncertaintyDb">;

/** Where the bands of a range stand in a curve; -1 for one that is missing. */
function bandsBetween(curve: Levels, fromHz: number, toHz: number): number[] {
  return THIRD_OCTAVES.filter(({ nominalHz }) => nominalHz >= fromHz && nominalHz <= toHz).map(({ nominalHz }) =>
    curve.nominalHz.indexOf(nominalHz),
  );
}

/** Difference a minus b by third octave, and over the alignment range; the two were measured for themselves. */
export function curveDifference(
  a: BandCurve,
  b: BandCurve,
): { levelDb: number | null; uncertaintyDb: number | null; bands: BandDifference[] } {
  return {
    levelDb: minus(rangeLevelDb(a, ...ALIGNMENT_HZ), rangeLevelDb(b, ...ALIGNMENT_HZ)),
    uncertaintyDb: rootSum(rangeUncertaintyDb(a, ...ALIGNMENT_HZ), rangeUncertaintyDb(b, ...ALIGNMENT_HZ)),
    bands: a.nominalHz.map((nominalHz, k) => {
      const other = b.nominalHz.indexOf(nominalHz);
      return {
        nominalHz,
        differenceDb: minus(a.levelDb[k], b.levelDb[other]),
        uncertaintyDb: rootSum(a.uncertaintyDb[k], b.uncertaintyDb[other]),
      };
    }),
  };
}

/** Null where one of the two is not known. */
export function minus(x: number | null | undefined, y: number | null | undefined): number | null {
  return x == null || y == null ? null : x - y;
}

/** Standard uncertainty of a sum or difference of two independent values; null where one is not known. */
export function rootSum(x: number | null | undefined, y: number | null | undefined): number | null {
  return x == null || y == null ? null : Math.hypot(x, y);
}
