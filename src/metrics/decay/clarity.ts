/**
 * Ratio of early to late energy, C50 or C80.
 *
 * @param early - energy up to the limit, greater than 0
 * @param late - energy after it, greater than 0
 * @returns dB
 * @remarks Source: ISO 3382-1:2009 A.2.3, eq. (A.10).
 * @example clarity(10, 1) // 10
 */
export function clarity(early: number, late: number): number {
  return 10 * Math.log10(early / late);
}

/** One take says nothing of repeatability; this is stated instead. Its gain is in both parts, so half of a level's. */
const CLARITY_FLOOR_DB = 0.1;

/**
 * Standard uncertainty of a clarity at this position: what noise leaves, and a stated floor of 0.1 dB, a choice of ours.
 *
 * @param earlyDoubt - standard uncertainty of the early energy, as a share of it
 * @param lateDoubt - likewise
 * @returns dB
 */
export function clarityUncertainty(earlyDoubt: number, lateDoubt: number): number {
  return Math.hypot(CLARITY_FLOOR_DB, (10 / Math.LN10) * earlyDoubt, (10 / Math.LN10) * lateDoubt);
}

/**
 * Share of the energy that is early, D50.
 *
 * Formed from the same two energies as the clarity, so that C50 = 10 lg(D50 / (1 - D50)) holds exactly.
 *
 * @returns 0 to 1
 * @remarks Source: ISO 3382-1:2009 A.2.3, eq. (A.11).
 * @example definition(9, 1) // 0.9
 */
export function definition(early: number, late: number): number {
  return early / (early + late);
}

/**
 * Centre time Ts: first moment of the energy.
 *
 * @param energy - energy in each of equal steps from the arrival on, shape `[n]`, sum above 0
 * @param stepS - s
 * @returns s; each step counts at its middle
 * @remarks Source: ISO 3382-1:2009 A.2.4, eq. (A.13).
 * @example centreTime([1, 1], 1) // 1
 */
export function centreTime(energy: ArrayLike<number>, stepS: number): number {
  let moment = 0;
  let total = 0;
  for (let n = 0; n < energy.length; n++) {
    moment += (n + 0.5) * energy[n]!;
    total += energy[n]!;
  }
  return (stepS * moment) / total;
}
