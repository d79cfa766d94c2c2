import { decimate } from "../dsp/decimate.js";
import type { Signal } from "../model.js";
import type { Excitation } from "./excitation.js";

const RATE = 12_000;
const UP_TO_HZ = 1500;
const REACH_S = 0.03;

/**
 * How much a recording is like the sweep itself where the sweep begins in it, up to 1.5 kHz: the largest normalised
 * correlation within 30 ms.
 *
 * An electrical copy is the sweep, but for a delay and a gain, and gives nearly 1. What a microphone hears has been through
 * drivers, crossover and room, which turn the phase of every frequency, and gives far less.
 *
 * @param startSample - where the sweep begins, to within a few milliseconds
 * @returns 0 to 1; 0 where nothing was recorded, or where the sweep's growth is not known
 * @example likeness({ samples: sweep, sampleRate }, excitation, 0) // 1
 */
export function likeness({ samples, sampleRate }: Signal, excitation: Excitation, startSample: number): number {
  const { growthS, sweptHz, zeroSample } = excitation;
  if (growthS === null) return 0;
  const factor = Math.max(1, Math.floor(sampleRate / RATE));
  const rate = sampleRate / factor;
  const untilS = zeroSample / sampleRate + growthS * Math.log(Math.max(1, UP_TO_HZ / sweptHz[0]));
  const played = excitation.samples().subarray(0, Math.round(untilS * sampleRate));
  const sweep = decimate(played, factor);
  const reach = Math.ceil(REACH_S * rate);
  const margin = reach * factor;
  const from = Math.round(startSample) - margin;
  const stretch = samples.subarray(Math.max(0, from), Math.max(0, from + played.length + 2 * margin));
  const heard = decimate(stretch, factor);
  // Ahead of the file's beginning there is nothing.
  const offset = Math.round(Math.max(0, -from) / factor);
  let sweepEnergy = 0;
  for (const value of sweep) sweepEnergy += value * value;
  let best = 0;
  for (let lag = -offset; lag <= 2 * reach - offset; lag++) {
    let product = 0;
    let energy = 0;
    for (let n = Math.max(0, -lag); n < sweep.length; n++) {
      const value = heard[lag + n] ?? 0;
      product += value * sweep[n]!;
      energy += value * value;
    }
    if (energy > 0) best = Math.max(best, Math.abs(product) / Math.sqrt(energy * sweepEnergy));
  }
  return best;
}
