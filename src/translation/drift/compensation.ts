import { DRIFT } from "../limits.js";

/**
 * Share of a monitor's colour that ends up inverted in a mix.
 *
 * @param stated - by the session, if it does
 * @param referenceUse - how far the engineer works against references on the same monitors, 0 to 1; the default stands for 0.25
 * @returns what is reckoned with, and its range: the default's, stretched so that the share lies in it. The full inverse is a
 *   limiting case, not a guess, and has no range.
 * @example compensationOf(undefined) // 0.6, from 0.3 to 0.8
 */
export function compensationOf(
  stated: number | undefined,
  referenceUse?: number,
): { compensation: number; compensationRange: [number, number] } {
  const byReferences =
    referenceUse === undefined ? DRIFT.compensation.value : DRIFT.unadapted.value * (1 - referenceUse);
  const compensation = stated ?? byReferences;
  if (compensation === 1) return { compensation, compensationRange: [1, 1] };
  return {
    compensation,
    compensationRange: [
      Math.min(DRIFT.compensationFrom.value, compensation),
      Math.max(DRIFT.compensationTo.value, compensation),
    ],
  };
}

/**
 * What a mix has in it of the monitor it was made on: mix = -c * limit(deviation).
 *
 * Dips count half, and a deviation counts for no more than 6 dB. With c = 1, the full inverse, neither holds.
 *
 * @param deviationDb - smoothed, dB
 * @example inMix(4, 0.6) // -2.4
 */
export function inMix(deviationDb: number, compensation: number): number {
  if (compensation === 1) return -deviationDb;
  const limited = Math.min(DRIFT.limitDb.value, Math.max(-DRIFT.limitDb.value, deviationDb));
  return -compensation * (limited < 0 ? DRIFT.dipWeight.value * limited : limited);
}
