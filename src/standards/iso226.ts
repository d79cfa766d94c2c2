/**
 * Threshold of hearing and equal loudness of pure tones, free field, frontal, two ears.
 *
 * Source: ISO 226:2003, Table 1 and equation (1) with its constant 1.15, read in a stored transcription. The 2023 edition is within
 * 0.6 dB of it (Suzuki et al. 2024, restatement); people scatter by 5 to 6 dB. The threshold at 16 kHz is that of ISO 389-7:2005,
 * from memory: ISO 226 ends at 12.5 kHz.
 */

import { straightOverLog } from "../dsp/straight-over-log.js";

interface ToneRow {
  readonly frequencyHz: number;
  /** Exponent of loudness. */
  readonly exponent: number;
  /** Gain of hearing re 1 kHz, dB. */
  readonly gainDb: number;
  /** Threshold of hearing, dB SPL. */
  readonly thresholdDb: number;
}

/** Frequency Hz, alpha_f, L_U dB, T_f dB SPL. */
const TABLE: readonly ToneRow[] = (
  [
    [20, 0.532, -31.6, 78.5],
    [25, 0.506, -27.2, 68.7],
    [31.5, 0.48, -23.0, 59.5],
    [40, 0.455, -19.1, 51.1],
    [50, 0.432, -15.9, 44.0],
    [63, 0.409, -13.0, 37.5],
    [80, 0.387, -10.3, 31.5],
    [100, 0.367, -8.1, 26.5],
    [125, 0.349, -6.2, 22.1],
    [160, 0.33, -4.5, 17.9],
    [200, 0.315, -3.1, 14.4],
    [250, 0.301, -2.0, 11.4],
    [315, 0.288, -1.1, 8.6],
    [400, 0.276, -0.4, 6.2],
    [500, 0.267, 0, 4.4],
    [630, 0.259, 0.3, 3.0],
    [800, 0.253, 0.5, 2.2],
    [1000, 0.25, 0, 2.4],
    [1250, 0.246, -2.7, 3.5],
    [1600, 0.244, -4.1, 1.7],
    [2000, 0.243, -1.0, -1.3],
    [2500, 0.243, 1.7, -4.2],
    [3150, 0.243, 2.5, -6.0],
    [4000, 0.242, 1.2, -5.4],
    [5000, 0.242, -2.1, -1.5],
    [6300, 0.245, -7.1, 6.0],
    [8000, 0.254, -11.2, 12.6],
    [10_000, 0.271, -10.7, 13.9],
    [12_500, 0.301, -3.1, 12.3],
  ] as const
).map(([frequencyHz, exponent, gainDb, thresholdDb]) => ({ frequencyHz, exponent, gainDb, thresholdDb }));

/** ISO 389-7:2005, from memory. */
const THRESHOLD_AT_16_KHZ_DB = 40.2;

/** Levels, phon, for which the contours are stated: up to 4 kHz, and above. */
const LEAST_PHON = 20;
const MOST_PHON = 90;
const MOST_PHON_ABOVE_4_KHZ = 80;

/**
 * Level at which a pure tone is just heard in silence.
 *
 * @param frequencyHz - nominal third octaves are the table's own; straight over log frequency between them
 * @returns dB SPL; null outside 20 Hz to 16 kHz
 * @example hearingThresholdDb(1000) // 2.4
 */
export function hearingThresholdDb(frequencyHz: number): number | null {
  const last = TABLE.at(-1)!;
  if (frequencyHz <= last.frequencyHz) return rowAt(frequencyHz)?.thresholdDb ?? null;
  if (frequencyHz > 16_000) return null;
  return straightOverLog(frequencyHz, last.frequencyHz, 16_000, last.thresholdDb, THRESHOLD_AT_16_KHZ_DB);
}

/**
 * Level at which a pure tone is as loud as one at 1 kHz.
 *
 * @param phon - level of the tone at 1 kHz, dB SPL
 * @param frequencyHz - the parameters of the formula run straight over log frequency between the nominal third octaves
 * @returns dB SPL; null where the standard says nothing: outside 20 Hz to 12.5 kHz, below 20 phon, above 90 phon (80 above 4 kHz)
 * @remarks Source: ISO 226:2003, equation (1).
 * @example equalLoudnessDb(40, 1000) // 40.01, by the rounded parameters
 */
export function equalLoudnessDb(phon: number, frequencyHz: number): number | null {
  const row = rowAt(frequencyHz);
  const most = frequencyHz > 4000 ? MOST_PHON_ABOVE_4_KHZ : MOST_PHON;
  if (row === null || phon < LEAST_PHON || phon > most) return null;
  const { exponent, gainDb, thresholdDb } = row;
  const atThreshold = (0.4 * 10 ** ((thresholdDb + gainDb) / 10 - 9)) ** exponent;
  const loudness = 4.47e-3 * (10 ** (0.025 * phon) - 1.15) + atThreshold;
  return (10 / exponent) * Math.log10(loudness) - gainDb + 94;
}

/**
 * How the balance of a tone against 1 kHz seems to change when everything is played at another level.
 *
 * Turned down, bass seems to lose more than the middle: negative values say by how many decibels it seems turned down.
 * Tones, not music; a statement of its own, not part of a drift.
 *
 * @param fromPhon - level at first, dB SPL at 1 kHz
 * @param toPhon - level afterwards
 * @returns dB re 1 kHz; null where either contour is not stated
 * @example levelShiftDb(63, 85, 70) // -5.74
 */
export function levelShiftDb(frequencyHz: number, fromPhon: number, toPhon: number): number | null {
  const contourShift = (hz: number): number | null => {
    const from = equalLoudnessDb(fromPhon, hz);
    const to = equalLoudnessDb(toPhon, hz);
    return from === null || to === null ? null : from - to;
  };
  const here = contourShift(frequencyHz);
  // Against the contours' own value there: by rounded parameters it is not quite the difference in phon.
  const middle = contourShift(1000);
  return here === null || middle === null ? null : here - middle;
}

function rowAt(frequencyHz: number): ToneRow | null {
  const upper = TABLE.findIndex((row) => row.frequencyHz >= frequencyHz);
  if (upper < 0 || frequencyHz < TABLE[0]!.frequencyHz) return null;
  const high = TABLE[upper]!;
  const low = TABLE[Math.max(0, upper - 1)]!;
  const between = (from: number, to: number): number =>
    straightOverLog(frequencyHz, low.frequencyHz, high.frequencyHz, from, to);
  return {
    frequencyHz,
    exponent: between(low.exponent, high.exponent),
    gainDb: between(low.gainDb, high.gainDb),
    thresholdDb: between(low.thresholdDb, high.thresholdDb),
  };
}
