/**
 * Standard uncertainty of an energy mean of levels.
 *
 * Each level weighs as its share of the summed power.
 *
 * @param levels - dB
 * @param uncertainties - their standard uncertainties, dB, by the same index
 * @param errors - `independent` where each level was measured for itself; `common` where they may all be wrong the same
 *   way, which is the most that the mean can be wrong by
 * @returns dB; null when one of them is not known, or there are none
 * @remarks Source: first-order propagation, GUM (JCGM 100:2008) 5.1.2 and 5.2.2 with correlation 1, from memory, high
 *   confidence.
 * @example energyMeanUncertaintyDb([-3, -3], [0.2, 0.2], "common") // 0.2; independent: 0.141
 */
export function energyMeanUncertaintyDb(
  levels: readonly (number | null)[],
  uncertainties: readonly (number | null)[],
  errors: "independent" | "common",
): number | null {
  let powers = 0;
  let sum = 0;
  let squares = 0;
  for (const [k, level] of levels.entries()) {
    const uncertainty = uncertainties[k];
    if (level === null || uncertainty == null) return null;
    const power = 10 ** (level / 10);
    powers += power;
    sum += power * uncertainty;
    squares += (power * uncertainty) ** 2;
  }
  if (powers === 0) return null;
  return (errors === "common" ? sum : Math.sqrt(squares)) / powers;
}
