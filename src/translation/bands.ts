import { HEARD_BANDS } from "./heard.js";

/** The third octaves that are judged: 25 Hz to 16 kHz. */
export const BANDS = HEARD_BANDS;

/** One value for each of `BANDS`, dB unless its name says otherwise; null where it is not known. */
export type Curve = readonly (number | null)[];

/** Third octaves over which levels are aligned, by nominal midband. */
const ALIGNMENT_HZ = [200, 4000] as const;
/** With fewer bands in common an offset says nothing: one octave. A choice of ours. */
const LEAST_BANDS = 3;

/**
 * Mean of the decibels over 200 Hz-4 kHz: every band weighs the same.
 *
 * @param curve - dB
 * @param counts - whether a band belongs to the mean, by index
 * @returns null where one of the bands that count is not known, or fewer than three count
 */
export function alignmentDb(curve: Curve, counts: (band: number) => boolean = () => true): number | null {
  const levels: number[] = [];
  for (const [k, { nominalHz }] of BANDS.entries()) {
    if (nominalHz < ALIGNMENT_HZ[0] || nominalHz > ALIGNMENT_HZ[1] || !counts(k)) continue;
    const level = curve[k];
    if (level == null) return null;
    levels.push(level);
  }
  return levels.length < LEAST_BANDS ? null : levels.reduce((sum, level) => sum + level, 0) / levels.length;
}
