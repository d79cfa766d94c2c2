import { fitLine } from "../../dsp/line-fit.js";
import type { BandDecay } from "./band-decay.js";

/** One take says nothing of repeatability; this is stated instead. */
const DECAY_FLOOR = 0.02;
/** Share of the part cut off that its estimate may be wrong by. */
export const TAIL_DOUBT = 0.25;

/**
 * Standard uncertainty of a reverberation time at this position: what the noise leaves, and a stated floor of 2 %.
 *
 * The noise's error of the remaining energy at each level is carried through the same fit, taken as wholly correlated, which
 * overstates it. What another position would give is not in it: ISO 3382-2's formula is about the room.
 *
 * @param timeS - the reverberation time read between the two levels
 * @returns s
 */
export function decayUncertainty(
  decay: BandDecay,
  bandwidthHz: number,
  timeS: number,
  fit: { from: number; to: number },
): number {
  const { curve, stepS, truncation } = decay;
  const { noise, steps, tailEnergy } = truncation;
  const total = tailEnergy * 10 ** (decay.rangeDb / 10);
  let from = 0;
  while (from < curve.length && curve[from]! > fit.from) from++;
  let to = from;
  while (to < curve.length && curve[to]! >= fit.to) to++;
  const errorsDb = new Float64Array(curve.length);
  for (let n = from; n < to; n++) {
    const left = total * 10 ** (curve[n]! / 10);
    const variance =
      (noise * (2 * left + noise * (steps - n))) / (bandwidthHz * stepS) + (TAIL_DOUBT * tailEnergy) ** 2;
    errorsDb[n] = (10 / Math.LN10) * (Math.sqrt(variance) / left);
  }
  const slopeError = (fitLine(errorsDb, from, to)?.slope ?? 0) / stepS;
  return timeS * Math.hypot(DECAY_FLOOR, (slopeError * timeS) / 60);
}
