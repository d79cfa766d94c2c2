/** One number for each octave band from 63 Hz to 8 kHz. */
export type Octaves = readonly [number, number, number, number, number, number, number, number];

/** Index of the band at 8 kHz; the midbands are the exact base-ten ones, 1000 * 10^(0.3 (band - 4)) Hz. */
const HIGHEST = 7;

/**
 * Splits one frequency among the octave bands so that the shares add up to 1.
 *
 * Between two midbands the share passes from one to the other along a raised cosine over log frequency; below the
 * lowest and above the highest midband that band takes all. Filters with these shares have zero phase and add up to
 * an unchanged signal.
 *
 * @param frequencyHz - 0 or more
 * @returns the lower of the two bands concerned, its share, and the share of the band above it (0 if there is none)
 * @example octaveShares(1000) // { band: 4, share: 1, above: 0 }
 */
export function octaveShares(frequencyHz: number): { band: number; share: number; above: number } {
  const place = 4 + Math.log10(frequencyHz / 1000) / 0.3;
  if (!(place > 0)) return { band: 0, share: 1, above: 0 };
  if (place >= HIGHEST) return { band: HIGHEST, share: 1, above: 0 };
  const band = Math.floor(place);
  const above = 0.5 - 0.5 * Math.cos(Math.PI * (place - band));
  return { band, share: 1 - above, above };
}
