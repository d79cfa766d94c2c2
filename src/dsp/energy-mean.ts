/**
 * Energy mean of levels: the level of the mean power.
 *
 * @param levels - dB; null entries make the mean null, since an average over part of them says something else
 * @returns dB; null when there are none
 * @example energyMeanDb([0, 0]) // 0
 */
export function energyMeanDb(levels: readonly (number | null)[]): number | null {
  if (levels.length === 0) return null;
  let sum = 0;
  for (const level of levels) {
    if (level === null) return null;
    sum += 10 ** (level / 10);
  }
  return 10 * Math.log10(sum / levels.length);
}
