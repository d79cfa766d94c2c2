import type { Point } from "./expected-path.js";

/** Places as they are known: how far loudspeaker and listener may be from where they are said to be. */
export interface PlacementDoubt {
  /** Most likely error of loudspeaker (x, y, z) and listener (x, y, z). */
  readonly errorM: Float64Array;
  /** Its covariance, shape `[6][6]`. */
  readonly covariance: readonly Float64Array[];
}

/** @param placementM - standard uncertainty of each coordinate */
export function statedPlaces(placementM: number): PlacementDoubt {
  return {
    errorM: new Float64Array(6),
    covariance: Array.from({ length: 6 }, (_, row) =>
      Float64Array.from({ length: 6 }, (_value, column) => (row === column ? placementM ** 2 : 0)),
    ),
  };
}

/** How the detour of a path changes with the six coordinates. */
interface Slopes {
  readonly perSource: Point;
  readonly perReceiver: Point;
}

function slopesOf({ perSource, perReceiver }: Slopes): number[] {
  return [...perSource, ...perReceiver];
}

/** What a path's detour is off by what is known of the places' errors, and the standard uncertainty that is left, m. */
export function detourDoubt(places: PlacementDoubt, path: Slopes): { offM: number; uncertaintyM: number } {
  const slopes = slopesOf(path);
  const offM = slopes.reduce((sum, slope, k) => sum + slope * places.errorM[k]!, 0);
  const variance = slopes.reduce((sum, slope, k) => sum + slope * product(places.covariance[k]!, slopes), 0);
  return { offM, uncertaintyM: Math.sqrt(Math.max(0, variance)) };
}

/**
 * What is known of the places once a reflection has been named: its detour, measured, tells of them.
 *
 * @param detourOffM - measured minus what the stated places give
 * @param readingM - standard uncertainty of all else: the reading, the surface's own place, the speed of sound
 * @remarks Source: the update of a Kalman filter by one number, R. E. Kalman, J. Basic Eng. 82 (1960), from memory.
 */
export function afterNaming(
  places: PlacementDoubt,
  path: Slopes,
  detourOffM: number,
  readingM: number,
): PlacementDoubt {
  const slopes = slopesOf(path);
  const { offM, uncertaintyM } = detourDoubt(places, path);
  const shared = places.covariance.map((row) => product(row, slopes));
  const variance = uncertaintyM ** 2 + readingM ** 2;
  const surprise = (detourOffM - offM) / variance;
  return {
    errorM: places.errorM.map((value, k) => value + shared[k]! * surprise),
    covariance: places.covariance.map((row, k) => row.map((value, j) => value - (shared[k]! * shared[j]!) / variance)),
  };
}

function product(row: Float64Array, column: readonly number[]): number {
  return column.reduce((sum, value, k) => sum + value * row[k]!, 0);
}
