import type { PredictedMode } from "../model.js";

const AXES = ["length", "width", "height"] as const;

/**
 * A predicted mode by the axes it goes along, with its half waves.
 *
 * @example modeName([0, 2, 0]) // "width 2"
 * @example modeName([1, 1, 0]) // "length 1, width 1"
 */
export function modeName(order: PredictedMode["order"]): string {
  return order.flatMap((halfWaves, axis) => (halfWaves > 0 ? [`${AXES[axis]} ${halfWaves}`] : [])).join(", ");
}

const BETWEEN = ["between front and rear wall", "between the side walls", "between floor and ceiling"] as const;

/** Where an axial mode goes to and fro, for a sentence; null for one that meets more walls than two. */
export function betweenWalls(order: PredictedMode["order"]): string | null {
  const axes = order.flatMap((halfWaves, axis) => (halfWaves > 0 ? [axis] : []));
  return axes.length === 1 ? BETWEEN[axes[0] as 0 | 1 | 2] : null;
}
