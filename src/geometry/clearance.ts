import { difference, dot, type Point } from "./point.js";
import { crossing, insideM, type Surface } from "./surfaces.js";

/** Half of a small loudspeaker: nearer to a surface than this its middle cannot be. A choice of ours. */
const HALF_SIZE_M = 0.1;

/**
 * Whether a loudspeaker can be moved on a straight way to another place: not through a wall or a panel, and not nearer to one than half
 * its own size. One that stands nearer already, as in a wall or on a desk, may keep its distance.
 */
export function canMoveTo(to: Point, from: Point, surfaces: readonly Surface[]): boolean {
  return surfaces.every((surface) => {
    const met = crossing(surface, from, to);
    if (met && insideM(surface, met) >= 0) return false;
    return distanceTo(surface, to) >= Math.min(HALF_SIZE_M, distanceTo(surface, from)) - ROUNDING_M;
  });
}

const ROUNDING_M = 1e-9;

/** From a point to the nearest place of a surface; of a panel that is often an edge. */
function distanceTo({ pointM, normal, extent }: Surface, at: Point): number {
  const off = difference(at, pointM);
  const beside = extent.map(({ axis, halfM }) => Math.max(0, Math.abs(dot(off, axis)) - halfM));
  return Math.hypot(dot(off, normal), ...beside);
}
