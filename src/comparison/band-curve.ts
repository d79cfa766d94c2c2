import type { BandMetrics, Measurement } from "../model.js";
import { THIRD_OCTAVES } from "../standards/iec61260.js";
import { energyMeanDb } from "../dsp/energy-mean.js";

/** Levels by third octave. */
export interface BandCurve {
  readonly nominalHz: readonly number[];
  readonly exactHz: readonly number[];
  readonly levelDb: readonly (number | null)[];
}

/** Alignment range of levels, Hz. */
const ALIGNMENT_HZ = [200, 4000] as const;

/** Third-octave curve of one measurement, or the energy mean of several. */
export function bandCurve(measurements: readonly Measurement[]): BandCurve {
  const thirds = (measurement: Measurement): BandMetrics[] => measurement.bands.filter((band) => band.fraction === 3);
  const first = measurements[0] ? thirds(measurements[0]) : [];
  return {
    nominalHz: first.map((band) => band.nominalHz),
    exactHz: first.map((band) => band.exactHz),
    levelDb: first.map((band) =>
      energyMeanDb(
        measurements.map((one) => thirds(one).find((other) => other.nominalHz === band.nominalHz)?.levelDb ?? null),
      ),
    ),
  };
}

/** Energy mean over the third octaves of a range, ends included by nominal frequency; null when one was not measured. */
export function rangeLevelDb(curve: BandCurve, fromHz: number, toHz: number): number | null {
  const bands = THIRD_OCTAVES.filter(({ nominalHz }) => nominalHz >= fromHz && nominalHz <= toHz);
  return energyMeanDb(bands.map(({ nominalHz }) => curve.levelDb[curve.nominalHz.indexOf(nominalHz)] ?? null));
}

/** Difference a minus b by third octave, and over the alignment range. */
export function curveDifference(
  a: BandCurve,
  b: BandCurve,
): {
  levelDb: number | null;
  bands: { nominalHz: number; differenceDb: number | null; uncertaintyDb: number | null }[];
} {
  const minus = (x: number | null | undefined, y: number | null | undefined): number | null =>
    x == null || y == null ? null : x - y;
  return {
    levelDb: minus(rangeLevelDb(a, ...ALIGNMENT_HZ), rangeLevelDb(b, ...ALIGNMENT_HZ)),
    bands: a.nominalHz.map((nominalHz, k) => ({
      nominalHz,
      differenceDb: minus(a.levelDb[k], b.levelDb[b.nominalHz.indexOf(nominalHz)]),
      uncertaintyDb: null,
    })),
  };
}
