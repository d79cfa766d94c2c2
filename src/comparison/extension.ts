import type { MonitorResult } from "../model.js";
import { type BandCurve, rangeLevelDb } from "./band-curve.js";

export type Extension = NonNullable<MonitorResult["extension"]>;

const REFERENCE_HZ = [200, 2000] as const;
const UP_TO_HZ = 200;

/**
 * Finds how far down a pair reaches: the lowest frequency from which its third-octave curve stays above a limit up to
 * 200 Hz, re the mean of 200 Hz-2 kHz.
 *
 * A dip one third octave wide is named, not counted: it is a place in the room, not the end of the loudspeaker.
 *
 * @returns frequencies where the curve crosses -3, -6 and -10 dB, interpolated on log frequency; null with a flag for a
 *   limit that the curve does not cross down to its lowest band, or does not meet at 200 Hz; `dipsHz` are
 *   the single bands that were passed over for any of the limits
 */
export function extension(curve: BandCurve): Extension | null {
  const referenceDb = rangeLevelDb(curve, ...REFERENCE_HZ);
  if (referenceDb === null) return null;
  const relative = curve.levelDb.map((levelDb) => (levelDb === null ? null : levelDb - referenceDb));
  const top = curve.nominalHz.indexOf(UP_TO_HZ);
  const isDip = (k: number, limitDb: number): boolean => {
    const above = relative[k + 1];
    const below = relative[k - 1];
    return k < top && above != null && below != null && above >= limitDb && below >= limitDb;
  };
  const passed = new Set<number>();
  const flags: string[] = [];
  const lowest = (limitDb: number): number | null => {
    let k = top;
    if (k < 0 || !((relative[k] ?? Number.NEGATIVE_INFINITY) >= limitDb)) {
      flags.push(`minus${-limitDb}-not-met-at-200`);
      return null;
    }
    while (k > 0) {
      if (!((relative[k - 1] ?? Number.NEGATIVE_INFINITY) >= limitDb)) {
        if (!isDip(k - 1, limitDb)) break;
        passed.add(k - 1);
      }
      k--;
    }
    const under = relative[k - 1];
    const over = relative[k];
    if (k === 0 || under == null || over == null) {
      flags.push(`minus${-limitDb}-below-range`);
      return null;
    }
    const share = (limitDb - over) / (under - over);
    return curve.exactHz[k]! * (curve.exactHz[k - 1]! / curve.exactHz[k]!) ** share;
  };
  const limits = { minus3Hz: lowest(-3), minus6Hz: lowest(-6), minus10Hz: lowest(-10) };
  return { ...limits, dipsHz: curve.nominalHz.filter((_, k) => passed.has(k)), flags };
}
