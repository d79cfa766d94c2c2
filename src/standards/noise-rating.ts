/**
 * Noise rating curves: octave levels L = a + b NR, dB SPL.
 *
 * Source: ISO/R 1996:1971. The constants are from memory, high confidence; the original also tables the curves, rounded.
 */

/** Nominal octave, a, b. */
const CONSTANTS: readonly (readonly [nominalHz: number, a: number, b: number])[] = [
  [31.5, 55.4, 0.681],
  [63, 35.5, 0.79],
  [125, 22, 0.87],
  [250, 12, 0.93],
  [500, 4.8, 0.974],
  [1000, 0, 1],
  [2000, -3.5, 1.015],
  [4000, -6.1, 1.025],
  [8000, -8, 1.03],
];

export const NOISE_RATING_SOURCE = "NR curves, ISO/R 1996:1971, constants from memory";

/** Octaves that a noise rating looks at, by nominal midband. */
export const NOISE_RATING_OCTAVES_HZ: readonly number[] = CONSTANTS.map(([nominalHz]) => nominalHz);

/**
 * Level of a noise rating curve in an octave.
 *
 * @param rating - NR number
 * @returns dB SPL; null outside 31.5 Hz to 8 kHz
 * @example noiseRatingLevel(10, 1000) // 10
 */
export function noiseRatingLevel(rating: number, nominalHz: number): number | null {
  const row = CONSTANTS.find(([octaveHz]) => octaveHz === nominalHz);
  return row ? row[1] + row[2] * rating : null;
}

/**
 * Noise rating of a spectrum: the highest curve that one of its octaves touches.
 *
 * @param octaves - dB SPL; null where not known
 * @returns the NR number, not rounded, with the octave that decides; null when no octave is known
 * @example noiseRating([{ nominalHz: 1000, levelDb: 12 }]) // { rating: 12, nominalHz: 1000 }
 */
export function noiseRating(
  octaves: readonly { readonly nominalHz: number; readonly levelDb: number | null }[],
): { rating: number; nominalHz: number } | null {
  let worst: { rating: number; nominalHz: number } | null = null;
  for (const [nominalHz, a, b] of CONSTANTS) {
    const levelDb = octaves.find((octave) => octave.nominalHz === nominalHz)?.levelDb;
    if (levelDb == null) continue;
    const rating = (levelDb - a) / b;
    if (worst === null || rating > worst.rating) worst = { rating, nominalHz };
  }
  return worst;
}
