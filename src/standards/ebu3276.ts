import { RESPONSE_MIDDLE } from "./bs1116.js";
import type { MaskSegment } from "./limit-mask.js";

/**
 * Listening rooms: EBU Tech 3276, 2nd edition (1998), with supplement 1. What it has in common with ITU-R BS.1116 is in
 * `bs1116.ts`; the text could not be opened.
 */

export const EBU3276 = "EBU Tech 3276, 2nd edition";

/** Operational room response, dB re the mean level: third octaves of pink noise at the listening position. */
export const EBU3276_RESPONSE: readonly MaskSegment[] = [
  RESPONSE_MIDDLE,
  {
    fromHz: 2000,
    toHz: 16_000,
    lower: [-3, -6],
    upper: [3, 3],
    origin: "memory",
    confidence: "low",
    note: "lower limit down to about -6 dB at 16 kHz",
  },
  {
    fromHz: 50,
    toHz: 250,
    lower: [-3, -3],
    upper: [3, 3],
    origin: "memory",
    confidence: "low",
    note: "±3 dB down to 50 Hz",
  },
];
