import type { MonitorResult } from "../model.js";

/** Where a monitor's low end lies at the mix position. */
export interface Reach {
  /** Null: below the measured range. */
  readonly minus6Hz: number | null;
  /** From here up tone can be asked for. */
  readonly toneFromHz: number;
}

/**
 * How far down a monitor carries, holes of the room passed over.
 *
 * A null at the mix position may lie above the loudspeaker's end: where the curve comes back to −6 dB below it, the end is
 * there. Tone is asked for from a third octave above −3 dB, or from half an octave above −10 dB where that lies lower: a
 * steep end has both at one place, a weak low end has not.
 *
 * @returns null where it is not known
 */
export function reachOf({ extension, target }: MonitorResult): Reach | null {
  if (!extension) return null;
  const { minus3Hz, minus6Hz, minus10Hz, flags } = extension;
  if (minus6Hz === null && !flags.includes("minus6-below-range")) return null;
  const back = (limitDb: number): number =>
    target?.bands.find(
      ({ deviationDb, targetDb }) => deviationDb !== null && targetDb !== null && deviationDb + targetDb >= limitDb,
    )?.nominalHz ?? Infinity;
  const minus6 = minus6Hz === null ? null : Math.min(minus6Hz, back(-6));
  const minus3 = minus3Hz ?? (flags.includes("minus3-below-range") ? 0 : Infinity);
  const minus10 = Math.min(minus10Hz ?? (flags.includes("minus10-below-range") ? 0 : Infinity), back(-10));
  return { minus6Hz: minus6, toneFromHz: Math.min(minus3 * 2 ** (1 / 3), minus10 * Math.SQRT2) };
}
