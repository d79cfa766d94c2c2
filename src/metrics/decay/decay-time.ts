import { fitLine } from "../../dsp/line-fit.js";
import { nonLinearityPerMille } from "../../standards/iso3382.js";

export interface DecayTime {
  /** Time to fall by 60 dB along the fitted line, s. */
  readonly timeS: number;
  readonly nonLinearityPerMille: number;
}

/** A line through fewer points says nothing about straightness. */
const FEWEST_POINTS = 3;

/**
 * Reads a reverberation time off a decay curve: least squares between two levels, extrapolated to 60 dB.
 *
 * @param curve - dB, shape `[n]`, falling
 * @param stepS - s per step, greater than 0
 * @param fromDb - upper level, dB re the curve's own reference
 * @param toDb - lower level, below `fromDb`
 * @returns null when the curve does not reach `toDb`, holds fewer than three points in between, or does not fall
 * @remarks Source: ISO 3382-1:2009 and ISO 3382-2:2008, evaluation of decay curves.
 * @example decayTime([0, -6, -12, -18], 0.1, 0, -15) // { timeS: 1, nonLinearityPerMille: 0 }
 */
export function decayTime(curve: ArrayLike<number>, stepS: number, fromDb: number, toDb: number): DecayTime | null {
  let from = 0;
  while (from < curve.length && curve[from]! > fromDb) from++;
  let to = from;
  while (to < curve.length && curve[to]! >= toDb) to++;
  if (to === curve.length || to - from < FEWEST_POINTS) return null;
  const line = fitLine(curve, from, to);
  if (!line || !(line.slope < 0)) return null;
  return {
    timeS: (-60 * stepS) / line.slope,
    nonLinearityPerMille: nonLinearityPerMille(line.correlationSquared),
  };
}
