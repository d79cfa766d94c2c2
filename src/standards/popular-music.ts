/**
 * Long-term spectrum of popular music by third octave.
 *
 * Sources: the default is the mean of two sets of third-party medians, 109 rock and 41 pop CD tracks (stored transcription); that it is
 * the mean, and the smoothing of the spread, are choices of ours. The fit is A. Elowsson and A. Friberg, AES 142 (2017), paper
 * 9762, 12 345 tracks, read in restatements; these lost the sign of the second quadratic term, which is restored here: with it
 * both parts meet at 93.9 Hz, where the paper says 94 Hz. The fit's tracks are older on average: 6 to 8 dB less at 40 to 63 Hz.
 */

import { THIRD_OCTAVES } from "./iec61260.js";

/** Nominal Hz, level re mean of the bands 200 Hz to 2 kHz in dB, one standard deviation between recordings in dB. */
const DEFAULT: readonly (readonly [number, number, number])[] = [
  [25, -23.4, 8.0],
  [31.5, -14.5, 7.0],
  [40, -6.9, 6.0],
  [50, -1.5, 5.0],
  [63, 1.2, 4.5],
  [80, 1.9, 4.0],
  [100, 1.9, 3.5],
  [125, 1.6, 3.0],
  [160, 1.3, 2.7],
  [200, 0.9, 2.5],
  [250, 0.3, 2.3],
  [315, -0.2, 2.2],
  [400, -0.4, 2.2],
  [500, 0.0, 2.2],
  [630, 0.8, 2.2],
  [800, 0.8, 2.2],
  [1000, 0.1, 2.2],
  [1250, -0.5, 2.2],
  [1600, -0.8, 2.3],
  [2000, -1.2, 2.4],
  [2500, -1.9, 2.5],
  [3150, -2.9, 2.7],
  [4000, -4.1, 2.9],
  [5000, -5.6, 3.1],
  [6300, -7.1, 3.3],
  [8000, -8.3, 3.6],
  [10_000, -10.2, 4.0],
  [12_500, -13.5, 4.5],
  [16_000, -19.0, 5.5],
];

/** Level of each third octave from 25 Hz to 16 kHz, dB re the mean of 200 Hz to 2 kHz. */
export const POPULAR_MUSIC_DB: readonly number[] = DEFAULT.map(([, levelDb]) => levelDb);

/** One standard deviation between recordings for each third octave from 25 Hz to 16 kHz, dB. */
export const POPULAR_MUSIC_SPREAD_DB: readonly number[] = DEFAULT.map(([, , spreadDb]) => spreadDb);

/** Pink noise: equal power in each third octave from 25 Hz to 16 kHz, dB. */
export const PINK_DB: readonly number[] = THIRD_OCTAVES.slice(0, DEFAULT.length).map(() => 0);

/** Where the two quadratic parts of the fit are joined, Hz. */
const JOINT_HZ = 94;

/**
 * Power density of popular music as published, by frequency.
 *
 * @param frequencyHz - fitted from 30 Hz to 15.7 kHz
 * @returns dB, on the paper's own arbitrary scale; null outside the fitted range
 */
export function popularMusicDensityDb(frequencyHz: number): number | null {
  if (frequencyHz < 30 || frequencyHz > 15_700) return null;
  const x = 1 + 60 * Math.log2(frequencyHz / 30);
  return frequencyHz > JOINT_HZ ? -0.000183 * x ** 2 + 0.0213 * x - 16.735 : -0.000907 * x ** 2 + 0.256 * x - 32.942;
}
