import { straightOverLog } from "../../dsp/straight-over-log.js";
import type { MaskSegment } from "../../standards/limit-mask.js";
import { isAdvisory } from "../../standards/limit-origin.js";

/** The curve that a monitor is held against. */
export interface Target {
  readonly id: string;
  /** Where curve and limits come from. */
  readonly source: string;
  /** At least two, rising in frequency; straight over log frequency between them, unknown outside. */
  readonly points: readonly { readonly frequencyHz: number; readonly levelDb: number }[];
  /** Limits of the deviation from the curve, dB. */
  readonly limits: readonly MaskSegment[];
}

/**
 * Level of a target's curve.
 *
 * @param frequencyHz - nominal: curves and masks name bands that way, and a file that begins at 160 Hz means that band
 * @returns dB; null outside the curve's points: nothing is extrapolated
 */
export function targetLevel({ points }: Target, frequencyHz: number): number | null {
  const above = points.findIndex((point) => point.frequencyHz >= frequencyHz);
  const to = points[above];
  if (!to) return null;
  if (to.frequencyHz === frequencyHz) return to.levelDb;
  const from = points[above - 1];
  return from ? straightOverLog(frequencyHz, from.frequencyHz, to.frequencyHz, from.levelDb, to.levelDb) : null;
}

/** Whether a limit of the target is remembered, disputed or chosen by us. */
export function isAdvisoryTarget({ limits }: Target): boolean {
  return limits.some(isAdvisory);
}
