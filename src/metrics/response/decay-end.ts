import { decimate } from "../../dsp/decimate.js";
import type { ImpulseResponse } from "../../model.js";

const BLOCK_S = 0.02;
/** The low band is looked at by itself: it decays last in most rooms and carries little of the whole energy. */
const LOW_RATE = 1000;
const NOISE_SHARE = 0.15;
const LEAST_S = 0.25;
const SMOOTHED_BLOCKS = 5;

/**
 * Finds where a response has sunk into its noise, so that a window need not let in more noise than it must.
 *
 * @returns samples after the arrival; the whole rest when it has not sunk by then
 */
export function decayEnd(impulse: ImpulseResponse): number {
  const { samples, sampleRate, arrivalSample } = impulse;
  const tail = samples.subarray(Math.round(arrivalSample));
  const factor = Math.max(1, Math.floor(sampleRate / LOW_RATE));
  const seconds = Math.max(
    LEAST_S,
    kneeSeconds(tail, sampleRate),
    kneeSeconds(decimate(tail, factor), sampleRate / factor),
  );
  return Math.min(tail.length, Math.ceil(seconds * sampleRate));
}

/** Last time at which the smoothed energy is clearly above the end's. */
function kneeSeconds(tail: ArrayLike<number>, rate: number): number {
  const block = Math.max(1, Math.round(BLOCK_S * rate));
  const count = Math.floor(tail.length / block);
  const energies = new Float64Array(count);
  for (let b = 0; b < count; b++) {
    for (let n = b * block; n < (b + 1) * block; n++) energies[b]! += tail[n]! ** 2;
  }
  const quiet = Math.max(1, Math.floor(NOISE_SHARE * count));
  let floor = 0;
  for (let b = count - quiet; b < count; b++) floor += energies[b]! / quiet;
  for (let b = count - SMOOTHED_BLOCKS; b >= 0; b--) {
    let sum = 0;
    for (let n = 0; n < SMOOTHED_BLOCKS; n++) sum += energies[b + n]!;
    // Smoothed noise scatters: in the low band a block holds few independent values.
    if (sum > 4 * SMOOTHED_BLOCKS * floor) return (b + SMOOTHED_BLOCKS) * BLOCK_S;
  }
  return 0;
}
