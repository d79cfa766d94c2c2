import type { PredictedMode } from "../model.js";
import { listedOr } from "./numbers.js";

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

const WALLS = ["front and rear wall", "the side walls", "floor and ceiling"] as const;

/** Of more candidates none is likely, and their names tell nothing. */
const MOST_NAMED = 4;

/** What a measured mode may be by the room's dimensions, for a sentence. */
export interface LikelyModes {
  /** Such as "sound between the side walls", or of several "sound between the side walls, or the mode length 1, width 1". */
  readonly text: string;
  /** Where the sound goes to and fro; null where a candidate meets more walls than two. */
  readonly between: string | null;
  readonly isOne: boolean;
}

/**
 * Names all modes that a measured one may be: frequency alone does not tell which of them it is.
 *
 * @returns null where nothing is predicted there, or so much that no name tells anything
 * @example likelyModes([{ order: [1, 0, 0], ... }, { order: [0, 1, 0], ... }])?.between // "between front and rear wall or the side walls"
 */
export function likelyModes(candidates: readonly Pick<PredictedMode, "order">[]): LikelyModes | null {
  if (candidates.length === 0 || candidates.length > MOST_NAMED) return null;
  const walls = candidates.map(({ order }) => wallsOf(order));
  const axial = [...new Set(walls.filter((pair) => pair !== null))];
  const others = candidates.filter((_, k) => walls[k] === null).map(({ order }) => `the mode ${modeName(order)}`);
  const between = axial.length === 0 ? null : `between ${listedOr(axial)}`;
  return {
    text: [...(between === null ? [] : [`sound ${between}`]), ...others].join(", or "),
    between: others.length === 0 ? between : null,
    isOne: candidates.length === 1,
  };
}

/** The two walls that an axial mode goes to and fro between; null for one that meets more. */
function wallsOf(order: PredictedMode["order"]): string | null {
  const axes = order.flatMap((halfWaves, axis) => (halfWaves > 0 ? [axis] : []));
  return axes.length === 1 ? WALLS[axes[0] as 0 | 1 | 2] : null;
}
