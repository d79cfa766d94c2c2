/**
 * Evaluation of decays: ranges, conditions, measures of straightness, early-to-late limits.
 *
 * Source: ISO 3382-1:2009 and ISO 3382-2:2008. The evaluation ranges were read in a restatement; everything else here
 * is from memory, medium to high confidence (clause numbers included).
 */

/** Levels of the decay curve, dB re its start, between which a straight line is fitted (ISO 3382-2, 3.5 and 3.6). */
export const EVALUATION_DB = {
  edt: { from: 0, to: -10 },
  t20: { from: -5, to: -25 },
  t30: { from: -5, to: -35 },
} as const;

/** Decay range that an evaluation needs: 10 dB below the end of its fit (ISO 3382-2, 5.3.3). */
export const REQUIRED_RANGE_DB = { edt: 20, t20: 35, t30: 45 } as const;

/** Above this a decay is far from a straight line (ISO 3382-2 Annex B). */
export const NON_LINEARITY_LIMIT_PER_MILLE = 10;
/** Above this a decay is curved (ISO 3382-2 Annex B). */
export const CURVATURE_LIMIT_PERCENT = 10;

/** Bandwidth times reverberation time that a filter needs: forward, and on a time-reversed signal (ISO 3382-2, 7.3). */
export const LEAST_BANDWIDTH_TIME = { forward: 16, reversed: 4 } as const;

/** Limits between early and late sound, s (ISO 3382-1, A.2.3). */
export const EARLY_S = { c50: 0.05, c80: 0.08 } as const;

/** Bandwidth that a decay's random error is counted with, re the midband, by `fraction` (ISO 3382-2, 7.1). */
const ERROR_BANDWIDTH = { 1: 0.71, 3: 0.23 } as const;
/** An integrated impulse response is worth so many interrupted decays at its place (ISO 3382-2, 7.2). */
const DECAYS_OF_AN_IMPULSE = 10;
/** By evaluation: factor of the standard deviation, and how much a single decay at a place adds. */
const SPREAD = { t20: { factor: 0.88, single: 1.9 }, t30: { factor: 0.55, single: 1.52 } } as const;

/**
 * Standard deviation of a reverberation time that is the mean over independent places: what the random sound field makes of
 * so few places, with no error of measurement in it.
 *
 * s = a T sqrt((1 + b/n) / (N B T)), with a = 0.88, b = 1.90 for T20 and a = 0.55, b = 1.52 for T30.
 *
 * @param evaluation - the range that was fitted; another one of 20 dB counts as T20
 * @param timeS - mean reverberation time, greater than 0
 * @param midbandHz - of an octave or third octave
 * @param places - N: independent combinations of source and microphone, at least 1
 * @returns s
 * @throws {RangeError} if `places` is less than 1
 * @remarks Source: ISO 3382-2:2008, 7.1 to 7.3, formulas for interrupted noise, where an integrated impulse response counts
 *   as n = 10: from memory, medium to high confidence.
 * @example 1000 * decayStandardDeviation("t20", 0.3, 1, 1000, 6) // 8.1
 */
export function decayStandardDeviation(
  evaluation: keyof typeof SPREAD,
  timeS: number,
  fraction: 1 | 3,
  midbandHz: number,
  places: number,
): number {
  if (!(places >= 1)) throw new RangeError(`places must be at least 1, found ${places}`);
  const { factor, single } = SPREAD[evaluation];
  const independent = places * ERROR_BANDWIDTH[fraction] * midbandHz * timeS;
  return factor * timeS * Math.sqrt((1 + single / DECAYS_OF_AN_IMPULSE) / independent);
}

/**
 * Departure of a decay from a straight line.
 *
 * @param correlationSquared - squared correlation of level and time over the fitted range, 0 to 1
 * @returns per mille; 0 for a straight line (ISO 3382-2 Annex B)
 */
export function nonLinearityPerMille(correlationSquared: number): number {
  return 1000 * (1 - correlationSquared);
}

/**
 * Curvature of a decay.
 *
 * @returns percent; positive when the later part is the slower (ISO 3382-2 Annex B)
 * @example curvaturePercent(1, 1.1) // 10
 */
export function curvaturePercent(t20S: number, t30S: number): number {
  return 100 * (t30S / t20S - 1);
}
