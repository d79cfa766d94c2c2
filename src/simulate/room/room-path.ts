import type { Octaves } from "./octave-split.js";

/** Metres: along the length from the front wall, along the width from the left wall, up from the floor. */
export type Point = readonly [number, number, number];

/** A room with six flat walls. */
export interface ShoeboxRoom {
  /** Length, width, height. */
  readonly sizeM: Point;
  /** Share of the sound energy that each wall keeps, 0 to 1, for each octave from 63 Hz to 8 kHz. */
  readonly absorption: Readonly<Record<"front" | "rear" | "left" | "right" | "floor" | "ceiling", Octaves>>;
  /** What the air keeps, for each octave. */
  readonly airDbPerM?: Octaves;
  readonly soundSpeedMPerS: number;
  /** Below this frequency the room's leaks let the pressure out: second order; 0 for a room without leaks. */
  readonly leakHz: number;
}

/** A point source. */
interface Source {
  readonly xyzM: Point;
  /** Point that the source looks at; with it `directivity` counts. */
  readonly aimM?: Point;
  /** For each octave, k in `(1 - k) + k cos(angle)`: 0 omnidirectional, 0.5 a cardioid. */
  readonly directivity?: Octaves;
}

/** One reflection more, by something that stands in the room; told by its relation to the direct sound. */
export interface ExtraPath {
  readonly delayS: number;
  readonly levelDb: number;
  readonly polarity: 1 | -1;
}

export interface RoomPath {
  readonly room: ShoeboxRoom;
  readonly source: Source;
  readonly receiverM: Point;
  readonly extraPaths?: readonly ExtraPath[];
}

/**
 * Holds a path against the limits of the model.
 *
 * @throws {RangeError} if source or receiver is outside the room, both are at one place, or a number is out of range
 */
export function checkPath({ room, source, receiverM }: RoomPath): void {
  for (const axis of [0, 1, 2] as const) {
    const size = room.sizeM[axis];
    for (const [name, at] of [
      ["source", source.xyzM[axis]],
      ["receiver", receiverM[axis]],
    ] as const) {
      if (!(at >= 0 && at <= size))
        throw new RangeError(`${name} coordinate ${at} lies outside the room, 0 to ${size}`);
    }
  }
  if (source.xyzM.every((at, axis) => at === receiverM[axis])) {
    throw new RangeError(`source and receiver are both at ${source.xyzM.join(", ")}`);
  }
  for (const [wall, table] of Object.entries(room.absorption)) {
    if (!table.every((share) => share >= 0 && share <= 1)) {
      throw new RangeError(`absorption of ${wall}, ${table.join(" ")}, must lie within 0 to 1`);
    }
  }
  if (!(room.soundSpeedMPerS > 0)) throw new RangeError(`soundSpeedMPerS ${room.soundSpeedMPerS} must be above 0`);
}
