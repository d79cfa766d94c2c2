import { decimate } from "../dsp/decimate.js";
import { forwardReal, inverseReal, transformSize } from "../dsp/fft.js";
import type { Signal } from "../model.js";
import type { Excitation } from "./excitation.js";

const RATE = 12_000;
/** Below, an interface's coupling turns the phase. */
const FROM_HZ = 100;
const UP_TO_HZ = 1500;
const REACH_S = 0.03;

/**
 * How much a recording is like the sweep itself where the sweep begins in it, from 100 Hz to 1.5 kHz: the largest normalised
 * correlation within 30 ms.
 *
 * An electrical copy is the sweep, but for a delay and a gain, and gives nearly 1. What a microphone hears has been through
 * drivers, crossover and room, which turn the phase of every frequency, and gives far less.
 *
 * @param startSample - where the sweep begins, to within a few milliseconds
 * @returns 0 to 1; 0 where nothing was recorded
 * @example likeness({ samples: sweep, sampleRate }, excitation, 0) // 1
 */
export function likeness({ samples, sampleRate }: Signal, excitation: Excitation, startSample: number): number {
  const factor = Math.max(1, Math.floor(sampleRate / RATE));
  const played = excitation.samples();
  const lags = 2 * Math.ceil((REACH_S * sampleRate) / factor);
  const from = Math.round(startSample) - (lags / 2) * factor;
  const stretch = new Float64Array(played.length + lags * factor);
  // Ahead of the file's beginning there is nothing.
  stretch.set(samples.subarray(Math.max(0, from), Math.max(0, from + stretch.length)), Math.max(0, -from));
  const size = transformSize(2 * Math.ceil(stretch.length / factor));
  const [heard, sweep] = [stretch, played].map((sound) => {
    const spectrum = forwardReal(decimate(sound, factor), size);
    const bin = (hz: number): number => Math.round((hz * size * factor) / sampleRate);
    return spectrum.fill(0, 0, 2 * bin(FROM_HZ)).fill(0, 2 * bin(UP_TO_HZ));
  });
  const correlation = inverseReal(againstEachOther(heard!, sweep!));
  const [heardUpTo, sweepUpTo] = [energyUpTo(inverseReal(heard!)), energyUpTo(inverseReal(sweep!))];
  const count = Math.ceil(played.length / factor);
  let best = 0;
  for (let lag = 0; lag <= lags; lag++) {
    const energy = heardUpTo[lag + count]! - heardUpTo[lag]!;
    if (energy > 0) best = Math.max(best, Math.abs(correlation[lag]!) / Math.sqrt(energy * sweepUpTo[count]!));
  }
  return Math.min(1, best);
}

/** The cross spectrum: what is common to both, at the distance between them. */
function againstEachOther(heard: Float64Array, sweep: Float64Array): Float64Array {
  const common = new Float64Array(heard.length);
  for (let k = 0; k < common.length; k += 2) {
    const [re, im, pr, pi] = [heard[k]!, heard[k + 1]!, sweep[k]!, sweep[k + 1]!];
    common[k] = re * pr + im * pi;
    common[k + 1] = im * pr - re * pi;
  }
  return common;
}

function energyUpTo(samples: Float64Array): Float64Array {
  const sums = new Float64Array(samples.length + 1);
  for (let n = 0; n < samples.length; n++) sums[n + 1] = sums[n]! + samples[n]! ** 2;
  return sums;
}
