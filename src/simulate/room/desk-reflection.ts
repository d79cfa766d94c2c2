import type { ExtraPath, Point, ShoeboxRoom } from "./room-path.js";

/**
 * Finds the reflection by the top of a desk between a loudspeaker and a listener.
 *
 * The path is that by the mirror image under the desk, as if its top had no edges: what the edges bend round them, and
 * what a console's sloping face does, are left out.
 *
 * @param sourceM - above the desk
 * @param receiverM - above the desk
 * @param room - for the speed of sound
 * @param desk - height of the top above the floor, metres; what the reflection loses besides distance, dB
 * @throws {RangeError} if source or receiver is not above the desk
 * @example deskReflection([0, 0, 1], [3, 0, 3], room, { heightM: 0, lossDb: 0 }).delayS // (5 - sqrt(13)) / c
 */
export function deskReflection(
  sourceM: Point,
  receiverM: Point,
  room: Pick<ShoeboxRoom, "soundSpeedMPerS">,
  desk: { readonly heightM: number; readonly lossDb: number },
): ExtraPath {
  const { heightM, lossDb } = desk;
  if (!(sourceM[2] > heightM && receiverM[2] > heightM)) {
    throw new RangeError(
      `source at ${sourceM[2]} and receiver at ${receiverM[2]} must be above the desk at ${heightM}`,
    );
  }
  const across = Math.hypot(sourceM[0] - receiverM[0], sourceM[1] - receiverM[1]);
  const directM = Math.hypot(across, sourceM[2] - receiverM[2]);
  const mirroredM = Math.hypot(across, sourceM[2] + receiverM[2] - 2 * heightM);
  return {
    delayS: (mirroredM - directM) / room.soundSpeedMPerS,
    levelDb: 20 * Math.log10(directM / mirroredM) - lossDb,
    polarity: 1,
  };
}
