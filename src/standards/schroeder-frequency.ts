/**
 * Frequency above which the modes of a room overlap at least threefold, so that single ones are no longer heard.
 *
 * @param timeS - reverberation time, s
 * @param volumeM3 - m³
 * @returns Hz
 * @throws {RangeError} if one of them is not above 0
 * @remarks Source: M. R. Schroeder, K. H. Kuttruff, J. Acoust. Soc. Am. 34 (1962), as restated; the older factor 4000 asked for a
 *   tenfold overlap.
 * @example schroederFrequency(0.3, 100) // 110
 */
export function schroederFrequency(timeS: number, volumeM3: number): number {
  if (!(timeS > 0 && volumeM3 > 0)) throw new RangeError(`time ${timeS} s and volume ${volumeM3} m³ must be above 0`);
  return 2000 * Math.sqrt(timeS / volumeM3);
}
