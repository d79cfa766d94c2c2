import type { PredictedMode } from "../../model.js";

/**
 * A measured mode and a predicted one may be the same when they differ by no more than this share of the frequency.
 *
 * A dimension that is 2 % off moves an axial mode by as much (where does a lined wall begin?), 5 degrees of air by 0.9 %, a wall
 * that gives way by some percent: 3 % is a choice of ours.
 */
export const MATCH_TOLERANCE = 0.03;

/**
 * Finds the predicted modes that lie within a measured range, widened by the tolerance.
 *
 * @param rangeHz - of a single mode its frequency, twice; of a group its ends
 * @returns indices, the nearest to the middle of the range first
 * @example matchModes([34, 34], [{ frequencyHz: 34.3, ... }]) // [0]
 */
export function matchModes([fromHz, toHz]: readonly [number, number], predicted: readonly PredictedMode[]): number[] {
  const middle = Math.sqrt(fromHz * toHz);
  const off = (k: number): number => Math.abs(Math.log(predicted[k]!.frequencyHz / middle));
  return predicted
    .flatMap(({ frequencyHz }, k) =>
      frequencyHz >= fromHz * (1 - MATCH_TOLERANCE) && frequencyHz <= toHz * (1 + MATCH_TOLERANCE) ? [k] : [],
    )
    .sort((a, b) => off(a) - off(b));
}
