import type { Measure } from "../../model.js";

/** A head's breadth and what leans forward: past this a reflection misses the listener. A choice of ours. */
const ASIDE_M = 0.5;

/**
 * Turning a surface so that its reflection passes the listener: a mirror turned by an angle sends sound twice as far round.
 *
 * @param distanceM - from where the sound meets the surface to the listener; null where not known
 */
export function turn(surface: string | null, distanceM: number | null, boardToo = true): Measure {
  const angleDeg = distanceM === null ? null : (Math.atan(ASIDE_M / distanceM) * 180) / Math.PI / 2;
  return { kind: "turn", surface, boardToo, asideM: ASIDE_M, angleDeg };
}
