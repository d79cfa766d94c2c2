import type { BandMetrics } from "../../model.js";

/** Followed so much farther on one side, two decays were cut at different things: a choice of ours. */
const FARTHER_DB = 20;

/** Why two decays of one band are no like and like: one was followed much farther than the other. */
export function otherRange(before: BandMetrics, after: BandMetrics): string | null {
  const [old, now] = [before.decayRangeDb, after.decayRangeDb];
  if (old === null || now === null || Math.abs(old - now) <= FARTHER_DB) return null;
  return `the decay could be followed over ${old.toFixed(0)} dB before and over ${now.toFixed(0)} dB after`;
}
