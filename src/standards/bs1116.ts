/**
 * Reverberation time of a listening room: ITU-R BS.1116-3 8.2.3 and EBU Tech 3276 2.3, read in a restatement.
 *
 * Nominal value Tm = 0.25 (V / 100 m3)^(1/3) s, as the mean of the third octaves from 200 Hz to 4 kHz.
 */

/** Third octaves whose mean reverberation time is Tm, by nominal midband. */
export const MEAN_TIME_RANGE_HZ = [200, 4000] as const;

/**
 * @param volumeM3 - greater than 0
 * @returns s
 * @example nominalMeanTime(100) // 0.25
 */
export function nominalMeanTime(volumeM3: number): number {
  return 0.25 * Math.cbrt(volumeM3 / 100);
}
