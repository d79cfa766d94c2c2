import { THIRD_OCTAVES } from "./iec61260.js";
import { limitsAt, type MaskSegment } from "./limit-mask.js";
import { isAdvisory, type LimitOrigin } from "./limit-origin.js";

/**
 * Listening rooms: ITU-R BS.1116-3 (2015), section 8. What EBU Tech 3276 has in common with it stands here too; what only
 * that one has is in `ebu3276.ts`.
 *
 * Neither text could be opened. Each limit says whether it was read in a restatement or is from memory.
 */

export const BS1116 = "ITU-R BS.1116-3, section 8";
export const BOTH_ROOM_STANDARDS = "ITU-R BS.1116-3, section 8, and EBU Tech 3276";

/** Third octaves whose mean level a response is held against, by nominal midband. */
export const RESPONSE_REFERENCE_HZ = [200, 4000] as const;

/**
 * The middle of the response mask, shared by both standards.
 *
 * It is disputed since it hangs on the reference level, and 250 Hz-2 kHz is in circulation for that as well.
 */
export const RESPONSE_MIDDLE: MaskSegment = {
  fromHz: 250,
  toHz: 2000,
  lower: [-3, -3],
  upper: [3, 3],
  origin: "found",
  confidence: "medium",
  disputed: true,
  note: "±3 dB read in a restatement; reference level over 200 Hz-4 kHz quoted, 250 Hz-2 kHz also in circulation",
};

/** Operational room response, dB re the mean level: third octaves of pink noise at the listening position. */
export const BS1116_RESPONSE: readonly MaskSegment[] = [
  RESPONSE_MIDDLE,
  {
    fromHz: 2000,
    toHz: 16_000,
    lower: [-3, -7.5],
    upper: [3, 3],
    origin: "memory",
    confidence: "low",
    note: "lower limit down to about -7.5 dB at 16 kHz",
  },
  {
    fromHz: 50,
    toHz: 250,
    // It falls away towards 50 Hz, and no figure for that was to be had.
    lower: null,
    upper: [3, 3],
    origin: "memory",
    confidence: "low",
    note: "the lower limit falls away towards 50 Hz by an amount that could not be read: none is applied",
  },
];

/** Third octaves whose mean reverberation time is Tm, by nominal midband. */
export const MEAN_TIME_RANGE_HZ = [200, 4000] as const;

/** Reverberation time minus Tm, s; the same in both standards. */
export const REVERBERATION: readonly MaskSegment[] = [
  {
    fromHz: 200,
    toHz: 4000,
    lower: [-0.05, -0.05],
    upper: [0.05, 0.05],
    origin: "found",
    confidence: "high",
    // Whether it lies around the nominal time of the volume or around the room's own mean could not be read.
    disputed: true,
    note: "±0.05 s read in a restatement of EBU Tech 3276; around which mean could not be read",
  },
  {
    fromHz: 63,
    toHz: 200,
    lower: [-0.05, -0.05],
    upper: [0.3, 0.05],
    origin: "memory",
    confidence: "medium",
    note: "Figure 1 of BS.1116",
  },
  {
    fromHz: 4000,
    toHz: 8000,
    lower: [-0.1, -0.1],
    upper: [0.1, 0.1],
    origin: "memory",
    confidence: "medium",
    note: "Figure 1 of BS.1116",
  },
];

/** Reflections re the direct sound, 1-8 kHz, up to this delay. */
export const EARLY_REFLECTIONS = {
  mostDb: -10,
  untilS: 0.015,
  rangeHz: [1000, 8000],
  origin: "memory",
  confidence: "high",
  note: "1-8 kHz",
} as const satisfies LimitOrigin & { mostDb: number; untilS: number; rangeHz: readonly [number, number] };

/** Left against right at the listening position, by third octaves. */
export const LEFT_RIGHT_MATCH = {
  mostDb: 2,
  rangeHz: [250, 2000],
  origin: "memory",
  confidence: "medium",
  note: "front loudspeakers at the listening position",
} as const satisfies LimitOrigin & { mostDb: number; rangeHz: readonly [number, number] };

/** Difference of delay between channels. */
export const CHANNEL_DELAY = {
  mostS: 100e-6,
  origin: "memory",
  confidence: "medium",
  note: "100 µs",
} as const satisfies LimitOrigin & { mostS: number };

/** Noise rating of the background: aimed at, and never to be exceeded. */
export const BACKGROUND_RATING = {
  aim: 10,
  most: 15,
  origin: "memory",
  confidence: "high",
  note: "NR curves of ISO/R 1996:1971",
} as const satisfies LimitOrigin & { aim: number; most: number };

/**
 * Nominal mean reverberation time of a listening room, Tm = 0.25 (V / 100 m3)^(1/3) s.
 *
 * @param volumeM3 - greater than 0
 * @returns s
 * @throws {RangeError} if the volume is not greater than 0
 * @remarks Source: ITU-R BS.1116-3 8.2.3 and EBU Tech 3276 2.3, read in a restatement.
 * @example nominalMeanTime(100) // 0.25
 */
export function nominalMeanTime(volumeM3: number): number {
  if (!(volumeM3 > 0)) throw new RangeError(`volume ${volumeM3} m3 must be greater than 0`);
  return 0.25 * Math.cbrt(volumeM3 / 100);
}

export interface ReverberationMask {
  /** Nominal mean reverberation time. */
  readonly tmS: number;
  readonly bands: readonly {
    readonly nominalHz: number;
    readonly lowerS: number;
    readonly upperS: number;
    readonly advisory: boolean;
  }[];
}

/**
 * Shortest and longest reverberation time that a listening room of a volume should have, by third octave from 63 Hz to 8 kHz.
 *
 * Limits lie around the nominal Tm of the volume. Whether the standards put them around that or around the room's own mean
 * could not be read.
 *
 * @param volumeM3 - greater than 0
 * @throws {RangeError} if the volume is not greater than 0
 * @remarks Source: `REVERBERATION`, each stretch with its origin.
 * @example reverberationMask(100).bands.find((band) => band.nominalHz === 1000) // 0.20 to 0.30 s
 */
export function reverberationMask(volumeM3: number): ReverberationMask {
  const tmS = nominalMeanTime(volumeM3);
  const bands = THIRD_OCTAVES.flatMap(({ nominalHz }) => {
    const { lower, upper } = limitsAt(REVERBERATION, nominalHz);
    const segment = REVERBERATION.find(({ fromHz, toHz }) => nominalHz >= fromHz && nominalHz <= toHz);
    if (lower === null || upper === null || !segment) return [];
    return [{ nominalHz, lowerS: tmS + lower, upperS: tmS + upper, advisory: isAdvisory(segment) }];
  });
  return { tmS, bands };
}
