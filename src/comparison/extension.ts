import type { MonitorResult } from "../model.js";
import { type BandCurve, rangeLevelDb } from "./band-curve.js";
import { standAbove } from "./stand-above.js";

export type Extension = NonNullable<MonitorResult["extension"]>;

const REFERENCE_HZ = [200, 2000] as const;
const UP_TO_HZ = 200;

/**
 * Finds how far down a pair reaches: the lowest frequency from which its third-octave curve stays above a limit up to
 * 200 Hz, re the mean of 200 Hz-2 kHz.
 *
 * A dip one third octave wide is named, not counted: it is a place in the room, not the end of the loudspeaker. No more than
 * one is passed over for each octave walked.
 *
 * @returns frequencies where the curve crosses -3, -6 and -10 dB, interpolated on log frequency; null with a flag for a
 *   limit that the curve does not cross down to its lowest band, or does not meet at 200 Hz; `dipsHz` are
 *   the single bands that were passed over for any of the limits
 */
export function extension(curve: Pick<BandCurve, "nominalHz" | "exactHz" | "levelDb">): Extension | null {
  const referenceDb = rangeLevelDb(curve, ...REFERENCE_HZ);
  if (referenceDb === null) return null;
  const relative = curve.levelDb.map((levelDb) => (levelDb === null ? null : levelDb - referenceDb));
  const top = curve.nominalHz.indexOf(UP_TO_HZ);
  const passed = new Set<number>();
  const flags: string[] = [];
  const lowest = (limitDb: number): number | null => {
    const walk = standAbove(relative, top, -1, limitDb);
    if (!walk) {
      flags.push(`minus${-limitDb}-not-met-at-200`);
      return null;
    }
    for (const dip of walk.dips) passed.add(dip);
    const k = walk.last;
    const under = relative[k - 1];
    const over = relative[k];
    if (under == null || over == null) {
      flags.push(`minus${-limitDb}-below-range`);
      return null;
    }
    const share = (limitDb - over) / (under - over);
    return curve.exactHz[k]! * (curve.exactHz[k - 1]! / curve.exactHz[k]!) ** share;
  };
  const limits = { minus3Hz: lowest(-3), minus6Hz: lowest(-6), minus10Hz: lowest(-10) };
  return { ...limits, dipsHz: curve.nominalHz.filter((_, k) => passed.has(k)), flags };
}
