import { FLUTTER } from "../../standards/flutter.js";

/** A train of echoes as it was measured at one place. */
interface Train {
  readonly periodS: number;
  readonly periodUncertaintyS: number;
  readonly t60S: number;
}

export interface BetweenWalls {
  /** How far apart the walls are that the train goes between. */
  readonly distanceM: number;
  readonly distanceUncertaintyM: number;
  /** Axes of the room, 0 length to 2 height, whose walls are so far apart. */
  readonly axes: readonly number[];
  /** What a round trip costs the train. */
  readonly roundTripDb: number;
}

/** Stated dimensions may be off by so much, and the speed of sound by so much of it. */
const SIZE_M = 0.03;
const SPEED_SHARE = 0.003;
const FITS = 2;

/**
 * Finds the walls that a train of echoes goes to and fro between.
 *
 * Its period is the time there and back, so the walls are c / 2 times the period apart. About midway between them the echoes of both walls
 * interleave evenly, and the period is the time of one way: a period that fits no dimension is taken for that where twice it does.
 *
 * @param sizeM - length, width, height, as far as they are known
 * @returns null where no wall sends back half of what meets it: no flutter. Where no dimension fits, the period may be either, and
 *   the train must keep up for both
 */
export function betweenWalls(
  train: Train,
  sizeM: readonly (number | undefined)[],
  soundSpeedMPerS: number,
): BetweenWalls | null {
  const halfM = (soundSpeedMPerS * train.periodS) / 2;
  const uncertaintyM = Math.hypot((soundSpeedMPerS * train.periodUncertaintyS) / 2, SPEED_SHARE * halfM);
  const axesOf = (factor: 1 | 2): number[] =>
    sizeM.flatMap((size, axis) =>
      size !== undefined && Math.abs(size - factor * halfM) <= FITS * Math.hypot(factor * uncertaintyM, SIZE_M)
        ? [axis]
        : [],
    );
  const whole = axesOf(1);
  const half = axesOf(2);
  const factor = whole.length === 0 && half.length > 0 ? 2 : 1;
  const axes = factor === 2 ? half : whole;
  const roundTripDb = (factor * 60 * train.periodS) / train.t60S;
  if (roundTripDb > (axes.length > 0 ? FLUTTER.mostLostDb : FLUTTER.mostLostDb / 2)) return null;
  return { distanceM: factor * halfM, distanceUncertaintyM: factor * uncertaintyM, axes, roundTripDb };
}
