import { difference, distance, type Point, unit } from "./point.js";
import { crossing, heightOver, insideM, mirrored, type Surface } from "./surfaces.js";

/** A way from a loudspeaker to a listener by way of one or two surfaces. */
export interface MirrorPath {
  /** In the order in which the sound meets them. */
  readonly surfaces: readonly Surface[];
  /** The loudspeaker as the last mirror shows it. */
  readonly imageM: Point;
  /** Length of the whole way. */
  readonly lengthM: number;
  /** Longer than the direct way by this. */
  readonly detourM: number;
  /** Where it meets each surface. */
  readonly pointsM: readonly Point[];
  /** How far inside the edges of the surface it meets nearest to an edge; Infinity on faces, negative outside. */
  readonly insideM: number;
  /** Panels that stand in its way. */
  readonly blockedBy: readonly string[];
  /** By how much the detour changes when the loudspeaker moves, per metre. */
  readonly perSource: Point;
  /** The same for the listener. */
  readonly perReceiver: Point;
}

/** A way that keeps so close to the surface it goes along is no reflection. */
const LEAST_HEIGHT_M = 1e-6;

/**
 * Finds the way by way of surfaces by mirror images.
 *
 * The detour's derivatives follow from the mirror as well: moving the listener by a metre towards the image shortens the way by one; moving
 * the loudspeaker does what moving its image does, mirrored.
 *
 * @param surfaces - one or two, in the order in which the sound meets them
 * @param panels - what may stand in the way
 * @returns null where the sound cannot go that way: the two lie on different sides of the surface, or the second is met first
 */
export function mirrorPath(
  sourceM: Point,
  receiverM: Point,
  surfaces: readonly Surface[],
  panels: readonly Surface[] = [],
): MirrorPath | null {
  const images = surfaces.reduce<Point[]>((all, surface) => [...all, mirrored(surface, all.at(-1)!)], [sourceM]);
  // Backwards from the listener: each image shows through its mirror alone.
  const pointsM: Point[] = [];
  let to = receiverM;
  for (let k = surfaces.length - 1; k >= 0; k--) {
    const surface = surfaces[k]!;
    if (Math.abs(heightOver(surface, to)) < LEAST_HEIGHT_M) return null;
    const point = crossing(surface, images[k + 1]!, to);
    if (!point) return null;
    pointsM.unshift(point);
    to = point;
  }
  if (!leavesOn(sourceM, receiverM, surfaces, pointsM)) return null;
  const imageM = images.at(-1)!;
  const lengthM = distance(imageM, receiverM);
  const corners = [sourceM, ...pointsM, receiverM];
  const direct = unit(difference(receiverM, sourceM));
  const arriving = unit(difference(receiverM, imageM));
  const leaving = unit(difference(pointsM[0]!, sourceM));
  return {
    surfaces,
    imageM,
    lengthM,
    detourM: lengthM - distance(sourceM, receiverM),
    pointsM,
    insideM: Math.min(...surfaces.map((surface, k) => insideM(surface, pointsM[k]!))),
    blockedBy: panels
      .filter(
        (panel) =>
          !surfaces.includes(panel) && corners.some((corner, k) => k > 0 && cuts(panel, corners[k - 1]!, corner)),
      )
      .map(({ id }) => id),
    perSource: difference(direct, leaving),
    perReceiver: difference(arriving, direct),
  };
}

/** Whether the way comes to each surface and leaves it on the same side. */
function leavesOn(sourceM: Point, receiverM: Point, surfaces: readonly Surface[], pointsM: readonly Point[]): boolean {
  const corners = [sourceM, ...pointsM, receiverM];
  return surfaces.every((surface, k) => heightOver(surface, corners[k]!) * heightOver(surface, corners[k + 2]!) > 0);
}

/** Whether a panel stands in a straight line. */
export function cuts(panel: Surface, from: Point, to: Point): boolean {
  const point = crossing(panel, from, to);
  return point !== null && insideM(panel, point) > 0;
}

/**
 * Lists the ways by way of one surface and by way of two, whatever lies off the edges or is blocked included.
 *
 * Two panels are not followed: what is twice reflected by things of furniture's size is weak.
 */
export function mirrorPaths(sourceM: Point, receiverM: Point, surfaces: readonly Surface[]): MirrorPath[] {
  const panels = surfaces.filter(({ kind }) => kind === "panel");
  const orders = [
    ...surfaces.map((surface) => [surface]),
    ...surfaces.flatMap((first) =>
      surfaces
        .filter((second) => second !== first && (first.kind === "face" || second.kind === "face"))
        .map((second) => [first, second]),
    ),
  ];
  return orders.flatMap((order) => mirrorPath(sourceM, receiverM, order, panels) ?? []);
}
