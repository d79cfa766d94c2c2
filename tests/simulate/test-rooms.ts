import type { Octaves } from "../../src/simulate/room/octave-split.js";
import type { ShoeboxRoom } from "../../src/simulate/room/room-path.js";

export function alike(value: number): Octaves {
  return [value, value, value, value, value, value, value, value];
}

/** A room without leaks or air losses whose walls all keep the same share at all frequencies, but for those named. */
export function plainRoom(
  sizeM: readonly [number, number, number],
  share: number,
  others: Partial<ShoeboxRoom["absorption"]> = {},
): ShoeboxRoom {
  const wall = alike(share);
  return {
    sizeM,
    absorption: { front: wall, rear: wall, left: wall, right: wall, floor: wall, ceiling: wall, ...others },
    soundSpeedMPerS: 343,
    leakHz: 0,
  };
}
