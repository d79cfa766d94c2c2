import type { Signal } from "../model.js";

/** Below this an offset is a rounding error of the converter: 80 dB under full scale. A choice of ours. */
const NEGLIGIBLE = 1e-4;

/**
 * Takes a constant out of a signal: at the ends of a stretch that is cut out of it, a constant becomes a step, which has
 * energy at every frequency.
 *
 * @param offset - the signal's mean, full scale 1
 * @returns the signal itself when the offset is below -80 dBFS
 */
export function withoutOffset(signal: Signal, offset: number): Signal {
  if (Math.abs(offset) < NEGLIGIBLE) return signal;
  return { ...signal, samples: signal.samples.map((value) => value - offset) };
}
