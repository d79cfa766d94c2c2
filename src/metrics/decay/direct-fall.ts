import type { BandDecay } from "./band-decay.js";
import { earlyLate } from "./early-late.js";
import type { SplitPower } from "./split-spectra.js";

/** A fall of more than this within this time is the direct sound's, not the room's. */
const CLIFF_DB = 3;
export const CLIFF_S = 0.005;
/** Narrower bands cannot show a fall so steep: 5 ms hold one or two of their independent values, and chance makes cliffs. */
const LEAST_BANDWIDTH_HZ = 1.5 / CLIFF_S;
/** How long after the arrival a cliff is still the direct sound's. */
const LATEST_S = 0.02;

/**
 * Looks for the cliff that a near loudspeaker's direct sound makes at the head of a decay.
 *
 * The time-reversed filter moves the direct sound itself to before the arrival, out of the curve, so the first 5 ms are
 * judged by the band's energy before and after, split first and filtered after; later ones on the curve. The same
 * filter keeps the cliff out of bands under 300 Hz wide, which are not judged.
 *
 * @param split - energies before and after 5 ms
 * @returns level of the curve after the fall, dB re its start; null when there is no cliff
 * @remarks Common practice, no source.
 */
export function levelAfterCliff(decay: BandDecay, split: SplitPower, bandwidthHz: number): number | null {
  if (bandwidthHz < LEAST_BANDWIDTH_HZ) return null;
  const { curve, stepS } = decay;
  const span = Math.max(1, Math.round(CLIFF_S / stepS));
  const parts = earlyLate(decay, split, bandwidthHz);
  let after = parts && parts.early > (10 ** (CLIFF_DB / 10) - 1) * parts.late ? span : -1;
  const last = Math.min(curve.length - 1, Math.round(LATEST_S / stepS));
  for (let n = span; n <= last; n++) if (curve[n - span]! - curve[n]! > CLIFF_DB) after = n;
  return after < 0 ? null : (curve[after] ?? null);
}
