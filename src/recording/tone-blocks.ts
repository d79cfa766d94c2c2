import type { Signal } from "../model.js";

/** A tone's state in one short block of a recording. */
export interface ToneBlock {
  readonly start: number;
  readonly length: number;
  /** Peak amplitude of the sine. */
  readonly amplitude: number;
  /** Radians, relative to a steady tone of the frequency followed. */
  readonly phase: number;
  /** Mean square of all that is neither the tone nor a constant. */
  readonly restPower: number;
}

const BLOCK_S = 0.25;

/**
 * Follows a tone through a recording in blocks of 0.25 s that overlap by half.
 *
 * Each block is projected on a sine and a cosine under a window whose side lobes lie 92 dB down from 16 Hz away on, so
 * hum and its harmonics do not colour the amplitude.
 *
 * @param signal - at least one block long; a shorter one gives no blocks
 * @param frequencyHz - greater than 16 Hz, below half the sample rate less 16 Hz
 * @returns blocks in time's order
 * @example followTone(steady sine of amplitude 0.1 at 1 kHz, 1000)[0].amplitude // 0.1
 */
export function followTone({ samples, sampleRate }: Signal, frequencyHz: number): ToneBlock[] {
  const hop = Math.round((BLOCK_S * sampleRate) / 2);
  const length = 2 * hop;
  const window = blackmanHarris(length);
  const turn = (2 * Math.PI * frequencyHz) / sampleRate;
  const cosine = window.map((weight, n) => weight * Math.cos(turn * n));
  const sine = window.map((weight, n) => weight * Math.sin(turn * n));
  const total = window.reduce((sum, weight) => sum + weight, 0);
  const blocks: ToneBlock[] = [];
  for (let start = 0; start + length <= samples.length; start += hop) {
    const block = samples.subarray(start, start + length);
    const real = productOf(cosine, block);
    const imaginary = -productOf(sine, block);
    const mean = productOf(window, block);
    const square = weightedSquare(window, block);
    const amplitude = (2 * Math.hypot(real, imaginary)) / total;
    const restPower = Math.max(0, square / total - (mean / total) ** 2 - amplitude ** 2 / 2);
    const phase = Math.atan2(imaginary, real) - ((turn * start) % (2 * Math.PI));
    blocks.push({ start, length, amplitude, phase, restPower });
  }
  return blocks;
}

function productOf(a: Float64Array, b: Signal["samples"]): number {
  let sum = 0;
  for (let n = 0; n < a.length; n++) sum += a[n]! * b[n]!;
  return sum;
}

function weightedSquare(weights: Float64Array, values: Signal["samples"]): number {
  let sum = 0;
  for (let n = 0; n < weights.length; n++) sum += weights[n]! * values[n]! * values[n]!;
  return sum;
}

/** Four-term minimum-sidelobe window; periodic, so that its own spectrum is exact on the bins. */
export function blackmanHarris(length: number): Float64Array {
  const turn = (2 * Math.PI) / length;
  return Float64Array.from(
    { length },
    (_, n) =>
      0.35875 - 0.48829 * Math.cos(turn * n) + 0.14128 * Math.cos(2 * turn * n) - 0.01168 * Math.cos(3 * turn * n),
  );
}
