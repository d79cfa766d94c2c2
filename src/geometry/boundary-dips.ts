import { type MirrorPath, mirrorPath } from "./mirror-paths.js";
import { along, type Point } from "./point.js";
import { heightOver, type Surface } from "./surfaces.js";

/** A frequency at which a surface's reflection arrives in opposite step to the direct sound. */
export interface BoundaryDip {
  readonly frequencyHz: number;
  /** From the lowest up: 1, 2, ... */
  readonly order: number;
  /** How far, at most, the level falls from the heights beside it to the dip: with a surface that reflects everything. */
  readonly mostDb: number;
}

/**
 * Predicts the dips that one reflection tears into the response: (2n - 1) c / 2D, D the detour.
 *
 * Direct and reflected sound are taken as equal but for distance, so levels go from 1 + g to 1 - g, with g the direct way over the whole
 * way. Walls that absorb, and a loudspeaker that beams, make dips shallower.
 *
 * @returns by rising frequency; nothing for a path without detour
 * @remarks Source: interference of two waves, a closed form.
 * @example boundaryDips({ detourM: 1.715, lengthM: 3.43 }, 343, 200)[0] // 100 Hz, order 1, 9.5 dB
 */
export function boundaryDips(
  { detourM, lengthM }: { readonly detourM: number; readonly lengthM: number },
  soundSpeedMPerS: number,
  untilHz: number,
): BoundaryDip[] {
  if (!(detourM > 0)) return [];
  const ratio = (lengthM - detourM) / lengthM;
  const mostDb = 20 * Math.log10((1 + ratio) / (1 - ratio));
  const dips: BoundaryDip[] = [];
  for (let order = 1; ; order++) {
    const frequencyHz = ((2 * order - 1) * soundSpeedMPerS) / (2 * detourM);
    if (frequencyHz > untilHz) return dips;
    dips.push({ frequencyHz, order, mostDb });
  }
}

/** What a move of the loudspeaker does to a dip. */
export interface DipMove {
  /** Of the loudspeaker, at right angles to the surface; positive: away from it. */
  readonly awayM: number;
  /** Where the dip lies then. */
  readonly toHz: number;
  /** The way by the surface from there. */
  readonly path: MirrorPath;
}

/** A loudspeaker moved so little or so much is no advice: choices of ours. */
const LEAST_M = 0.02;
const MOST_M = 1.5;
const STEP_M = 0.01;

/**
 * Finds the smallest move, towards the surface and away from it, that shifts a surface's dips by an interval.
 *
 * @param ratio - of the shifted frequency to the present one, above 1; the move away shifts by one over it
 * @param mayStand - whether the loudspeaker may be moved there
 * @returns null where no move within 1.5 m does it
 */
export function moveForShift(
  sourceM: Point,
  receiverM: Point,
  surface: Surface,
  dipHz: number,
  ratio: number,
  mayStand: (at: Point) => boolean,
): { towards: DipMove | null; away: DipMove | null } {
  const present = mirrorPath(sourceM, receiverM, [surface]);
  if (!present) return { towards: null, away: null };
  const outwards = heightOver(surface, sourceM) > 0 ? 1 : -1;
  const search = (sign: 1 | -1): DipMove | null => {
    for (let stepM = LEAST_M; stepM <= MOST_M; stepM += STEP_M) {
      const at = along(sourceM, surface.normal, sign * outwards * stepM);
      if (!mayStand(at)) return null;
      const moved = mirrorPath(at, receiverM, [surface]);
      if (!moved) return null;
      const shift = present.detourM / moved.detourM;
      if (sign < 0 ? shift >= ratio : shift <= 1 / ratio) {
        return { awayM: sign * stepM, toHz: dipHz * shift, path: moved };
      }
    }
    return null;
  };
  return { towards: search(-1), away: search(1) };
}

/**
 * Whether a loudspeaker that is moved stays near the height of the ears, or comes nearer to it.
 *
 * @param mostDeg - over or under the ears, seen from the seat
 * @example keepsToEars([0, 0, 1.2], [0, 0, 2.2], [3, 0, 1.2], 15) // false: 18°
 */
export function keepsToEars(fromM: Point, toM: Point, earsM: Point, mostDeg: number): boolean {
  const off = (at: Point): number =>
    Math.abs(Math.atan2(at[2] - earsM[2], Math.hypot(at[0] - earsM[0], at[1] - earsM[1])));
  return off(toM) <= Math.max((mostDeg * Math.PI) / 180, off(fromM));
}
