import type { Session } from "./session.js";

/** A room's volume as stated, or from its dimensions; null when neither is known. */
export function roomVolumeM3(room: Session["room"]): number | null {
  if (room?.volumeM3 !== undefined) return room.volumeM3;
  const { lengthM, widthM, heightM } = room ?? {};
  if (lengthM === undefined || widthM === undefined || heightM === undefined) return null;
  return lengthM * widthM * heightM;
}
