import type { MicrophoneCalibration } from "../model.js";

/**
 * Reads a microphone's deviation from flat at one frequency.
 *
 * Subtract it from a measured level. Between rows the level is linear in the logarithm of frequency; beyond the first
 * and the last row it is held, because a table says nothing there and its slope at the end must not run away.
 *
 * @param calibration - at least one row, frequencies rising strictly
 * @param frequencyHz - Hz, greater than 0
 * @returns dB, positive where the microphone reads too high
 * @throws {RangeError} if the table is empty or the frequency is not greater than 0
 * @example calibrationAt({ frequencyHz: [100, 10_000], levelDb: [0, 2] }, 1000) // 1
 */
export function calibrationAt(calibration: MicrophoneCalibration, frequencyHz: number): number {
  const { frequencyHz: rows, levelDb } = calibration;
  if (rows.length === 0) throw new RangeError("the microphone's calibration has no rows");
  if (!(frequencyHz > 0)) throw new RangeError(`frequency ${frequencyHz} Hz must be greater than 0`);
  let below = 0;
  let above = rows.length - 1;
  if (frequencyHz <= rows[below]!) return levelDb[below]!;
  if (frequencyHz >= rows[above]!) return levelDb[above]!;
  while (above - below > 1) {
    const middle = (below + above) >> 1;
    if (rows[middle]! <= frequencyHz) below = middle;
    else above = middle;
  }
  const share = Math.log(frequencyHz / rows[below]!) / Math.log(rows[above]! / rows[below]!);
  return levelDb[below]! + share * (levelDb[above]! - levelDb[below]!);
}
