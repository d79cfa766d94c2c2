import { along, cross, difference, dot, type Point, unit } from "./point.js";

/** The six faces of a room, by the axis they stand across and the end of it they stand at. */
export const FACES = ["front", "rear", "left", "right", "floor", "ceiling"] as const;

/** A flat thing that sound is reflected by. */
export interface Surface {
  /** Of a face its name, of a panel its id. */
  readonly id: string;
  readonly kind: "face" | "panel";
  /** A point on it: of a panel its centre. */
  readonly pointM: Point;
  /** Length 1; which way it looks does not matter. */
  readonly normal: Point;
  /** Of a panel: in its plane, length 1 each, and how far it reaches along each from its centre. A face has no edges. */
  readonly extent: readonly { readonly axis: Point; readonly halfM: number }[];
}

/** What of a room is known; a room's far faces need its dimensions, its near ones do not. */
export interface StatedRoom {
  readonly lengthM?: number | undefined;
  readonly widthM?: number | undefined;
  readonly heightM?: number | undefined;
}

/** The faces that are known: front wall, left wall and floor always, since all places are measured from them. */
export function faces({ lengthM, widthM, heightM }: StatedRoom): Surface[] {
  const far = [lengthM, widthM, heightM];
  return FACES.flatMap((id, n) => {
    const axis = n >> 1;
    const at = n % 2 === 0 ? 0 : far[axis];
    if (at === undefined) return [];
    const along = (value: number): Point => [0, 1, 2].map((one) => (one === axis ? value : 0)) as [...Point];
    return [{ id, kind: "face" as const, pointM: along(at), normal: along(1), extent: [] }];
  });
}

/** A panel as the session describes it. */
export interface StatedPanel {
  readonly id: string;
  readonly centreM: Point;
  readonly normal: Point;
  readonly widthM: number;
  readonly heightM: number;
}

/**
 * A panel with its edges: its width lies level, its height at right angles to that. Of a panel that lies flat, as a desk's top does,
 * the width goes across the room and the height along it.
 */
export function panelSurface({ id, centreM, normal, widthM, heightM }: StatedPanel): Surface {
  const across = unit(normal);
  const level: Point = [-across[1], across[0], 0];
  const wide = Math.hypot(level[0], level[1]) > 1e-6 ? unit(level) : ([0, 1, 0] as const);
  return {
    id,
    kind: "panel",
    pointM: centreM,
    normal: across,
    extent: [
      { axis: wide, halfM: widthM / 2 },
      { axis: cross(across, wide), halfM: heightM / 2 },
    ],
  };
}

/** How far a point lies in front of a surface; negative behind it. */
export function heightOver({ pointM, normal }: Surface, at: Point): number {
  return dot(difference(at, pointM), normal);
}

/** The point behind a surface at which a mirror would show another. */
export function mirrored(surface: Surface, at: Point): Point {
  return along(at, surface.normal, -2 * heightOver(surface, at));
}

/** How far inside a surface's edges a point of its plane lies; negative outside. A face has no edges. */
export function insideM({ pointM, extent }: Surface, at: Point): number {
  return Math.min(...extent.map(({ axis, halfM }) => halfM - Math.abs(dot(difference(at, pointM), axis))), Infinity);
}

/** Where the straight way between two points meets a surface's plane; null where it does not. */
export function crossing(surface: Surface, from: Point, to: Point): Point | null {
  const [before, after] = [heightOver(surface, from), heightOver(surface, to)];
  if (before * after >= 0) return null;
  return along(from, difference(to, from), before / (before - after));
}
