import { audiblePeakDb } from "../../standards/audible-deviation.js";
import { BANDS, type Curve } from "../bands.js";

/** Wider than this nothing is heard sooner: two octaves have a Q under 1. */
const WIDEST_BANDS = 6;

/**
 * Least deviation that is heard in each band, given how wide it deviates.
 *
 * A wide deviation is heard sooner than a narrow one: a band is held against the limit of the widest run of neighbours that all
 * deviate by that limit.
 *
 * @param deviationDb - positive where it may be heard; turn the sign for dips
 * @param factor - times what is heard of a peak
 * @returns dB by band: the limit for a single band where nothing is heard
 * @example audibleByWidth(three neighbours at 2 dB, all else 0, 1) // 1.73 in those three, 2.46 elsewhere
 */
export function audibleByWidth(deviationDb: Curve, factor: number): number[] {
  const limits = BANDS.map(() => factor * audiblePeakDb(1));
  for (let width = 2; width <= WIDEST_BANDS; width++) {
    const limit = factor * audiblePeakDb(width);
    let run: number[] = [];
    for (let k = 0; k <= BANDS.length; k++) {
      if ((deviationDb[k] ?? -Infinity) >= limit) {
        run.push(k);
        continue;
      }
      if (run.length >= width) for (const n of run) limits[n] = limit;
      run = [];
    }
  }
  return limits;
}
