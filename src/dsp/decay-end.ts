import { decimate } from "./decimate.js";
import { energyOf } from "./energy.js";
import type { ImpulseResponse } from "../model.js";

const BLOCK_S = 0.02;
/** The low band is looked at by itself: it decays last in most rooms and carries little of the whole energy. */
const LOW_RATE = 1000;
const NOISE_SHARE = 0.15;
const LEAST_S = 0.25;
const SMOOTHED_BLOCKS = 5;

/** Both places matter: a response window must not end before the last, a search for disturbances may not go past the first. */
export interface DecayEnd {
  /** Samples after the arrival at which the response first comes near the noise. */
  readonly first: number;
  /** Samples after the arrival from which it stays there; the whole rest when it never does. */
  readonly last: number;
}

/**
 * Finds where a response has sunk into its noise, so that a window need not let in more noise than it must.
 *
 * A knock during the sweep comes back once after the response has sunk: between the two places.
 */
export function decayEnd(impulse: Pick<ImpulseResponse, "samples" | "sampleRate" | "arrivalSample">): DecayEnd {
  const { samples, sampleRate, arrivalSample } = impulse;
  const tail = samples.subarray(Math.round(arrivalSample));
  const factor = Math.max(1, Math.floor(sampleRate / LOW_RATE));
  const knees = [kneeSeconds(tail, sampleRate), kneeSeconds(decimate(tail, factor), sampleRate / factor)];
  const latest = (key: "first" | "last"): number => {
    const seconds = Math.max(LEAST_S, ...knees.map((knee) => knee[key]));
    return Math.min(tail.length, Math.ceil(seconds * sampleRate));
  };
  return { first: latest("first"), last: latest("last") };
}

/** First and last time at which the smoothed energy passes what is clearly above the end's. */
function kneeSeconds(tail: ArrayLike<number>, rate: number): { first: number; last: number } {
  const block = Math.max(1, Math.round(BLOCK_S * rate));
  const count = Math.floor(tail.length / block);
  const energies = new Float64Array(count);
  for (let b = 0; b < count; b++) energies[b] = energyOf(tail, b * block, (b + 1) * block);
  const quiet = Math.max(1, Math.floor(NOISE_SHARE * count));
  let floor = 0;
  for (let b = count - quiet; b < count; b++) floor += energies[b]! / quiet;
  let first: number | null = null;
  let last = 0;
  for (let b = 0; b + SMOOTHED_BLOCKS <= count; b++) {
    let sum = 0;
    for (let n = 0; n < SMOOTHED_BLOCKS; n++) sum += energies[b + n]!;
    const end = (b + SMOOTHED_BLOCKS) * BLOCK_S;
    // Smoothed noise scatters: in the low band a block holds few independent values.
    if (sum > 4 * SMOOTHED_BLOCKS * floor) last = end;
    else first ??= end;
  }
  return { first: first ?? last, last };
}
