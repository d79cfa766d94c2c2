import { straightOverLog } from "../dsp/straight-over-log.js";
import type { LimitOrigin } from "./limit-origin.js";

/** Values of a limit at the two ends of a stretch, straight over log frequency between them. */
type Ends = readonly [from: number, to: number];

/** Limits over one stretch of frequency; null on the side on which there is none. */
export interface MaskSegment extends LimitOrigin {
  /** By nominal frequency, both ends included. */
  readonly fromHz: number;
  readonly toHz: number;
  readonly lower: Ends | null;
  readonly upper: Ends | null;
}

export interface Limits {
  readonly lower: number | null;
  readonly upper: number | null;
}

/**
 * Limits of a mask at a frequency.
 *
 * Where stretches meet, the one that stands first in the list holds; each side is looked up for itself.
 *
 * @param frequencyHz - masks name their corners by nominal frequencies, and so must this
 * @example limitsAt([{ fromHz: 100, toHz: 400, lower: null, upper: [3, 5], ... }], 200) // { lower: null, upper: 4 }
 */
export function limitsAt(mask: readonly MaskSegment[], frequencyHz: number): Limits {
  const at = (side: "lower" | "upper"): number | null => {
    for (const segment of mask) {
      const ends = segment[side];
      if (ends === null || frequencyHz < segment.fromHz || frequencyHz > segment.toHz) continue;
      return straightOverLog(frequencyHz, segment.fromHz, segment.toHz, ...ends);
    }
    return null;
  };
  return { lower: at("lower"), upper: at("upper") };
}
