import type { MaskSegment } from "./limit-mask.js";

/** Curves that a monitor in a room may be held against when no standard is asked for. */

/** dB per octave, through 0 dB at 1 kHz. */
export const TILT_DB_PER_OCTAVE = -0.5;
export const TILT_REFERENCE_HZ = 1000;
export const TILT_SOURCE =
  "−0.5 dB per octave re 1 kHz: steady-state curve of well-behaved loudspeakers in rooms, a smooth tilt of −0.4 to −1 dB per octave, Toole 2015, from memory";

export const FLAT_SOURCE = "0 dB at all frequencies: what is played is what arrives";

/** Tolerance around both. */
export const IN_ROOM_TOLERANCE: readonly MaskSegment[] = [
  {
    fromHz: 50,
    toHz: 16_000,
    lower: [-3, -3],
    upper: [3, 3],
    origin: "ours",
    confidence: "medium",
    note: "±3 dB from 50 Hz to 16 kHz, the middle of the standards' masks carried outwards",
  },
];
