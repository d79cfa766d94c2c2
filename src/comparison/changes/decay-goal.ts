import { reverberationMask } from "../../standards/bs1116.js";
import { audibleModeS } from "../../standards/modal-decay.js";
import type { Goal } from "./reading.js";

/** Up to here a decay is that of modes, and is held against what is heard of one. */
const MODES_UP_TO_HZ = 200;

/**
 * What a decay time ought to be, and how far it is from that.
 *
 * Up to 200 Hz: no longer than a mode that stays unheard. Above: the recommended times of a listening room of this volume.
 *
 * @param volumeM3 - null where it is not stated
 * @returns null where nothing is published that could be held against it
 */
export function decayGoal(nominalHz: number, beforeS: number, afterS: number, volumeM3: number | null): Goal | null {
  const unheardS = nominalHz <= MODES_UP_TO_HZ ? audibleModeS(nominalHz) : null;
  if (unheardS !== null) {
    const over = (timeS: number): number => Math.max(0, timeS - unheardS);
    return { name: "what stays unheard", before: over(beforeS), after: over(afterS) };
  }
  const band = volumeM3 === null ? null : reverberationMask(volumeM3).bands.find((one) => one.nominalHz === nominalHz);
  if (!band) return null;
  const beyond = (timeS: number): number => Math.max(0, timeS - band.upperS, band.lowerS - timeS);
  return { name: "the recommended time", before: beyond(beforeS), after: beyond(afterS) };
}
