import { energyOf } from "./energy.js";
import { forwardReal } from "./fft.js";

type Samples = Float32Array | Float64Array;

/** A Hann window without zeros at its ends. */
export function hann(length: number): Float64Array {
  const window = new Float64Array(length);
  for (let n = 0; n < length; n++) {
    const sine = Math.sin((Math.PI * (n + 0.5)) / length);
    window[n] = sine * sine;
  }
  return window;
}

/**
 * Looks at a signal a block at a time.
 *
 * @param window - as long as a block
 * @param size - of the transform, at least as long
 * @returns a function that gives, of the block from `start` on, the mean square by bin, shape `[size / 2 + 1]`: the sum over a
 *   range of bins is what the block's steady sound has there. The array is used again for the next block
 */
export function blockPower(window: Float64Array, size: number): (samples: Samples, start: number) => Float64Array {
  const windowed = new Float64Array(window.length);
  const power = new Float64Array(size / 2 + 1);
  // Twice, for the mirrored half of the spectrum.
  const scale = 2 / (energyOf(window) * size);
  return (samples, start) => {
    weigh(windowed, samples, start, window);
    square(power, forwardReal(windowed, size), scale);
    return power;
  };
}

/**
 * Mean over blocks that overlap by half, as `blockPower` gives them under a Hann window.
 *
 * @param from - sample of the first block
 * @param to - end of the last one; at least `length` behind `from`
 * @param length - samples of a block, a power of two
 * @returns shape `[length / 2 + 1]`
 * @remarks Source: P. D. Welch, IEEE Trans. Audio Electroacoust. 15 (1967), averaged periodograms.
 */
export function meanPower(samples: Samples, from: number, to: number, length: number): Float64Array {
  const mean = new Float64Array(length / 2 + 1);
  const powerFrom = blockPower(hann(length), length);
  const count = 1 + Math.floor((2 * (to - from - length)) / length);
  for (let block = 0; block < count; block++) addShare(mean, powerFrom(samples, from + (block * length) / 2), count);
  return mean;
}

function addShare(mean: Float64Array, power: Float64Array, count: number): void {
  for (let k = 0; k < mean.length; k++) mean[k]! += power[k]! / count;
}

/** Sum over bins, both ends included. */
export function sumOfBins(power: Float64Array, first: number, last: number): number {
  let sum = 0;
  for (let k = first; k <= last; k++) sum += power[k]!;
  return sum;
}

function weigh(windowed: Float64Array, samples: Samples, start: number, window: Float64Array): void {
  // Copied first, so that the loop sees one kind of array.
  windowed.set(samples.subarray(start, start + windowed.length));
  for (let n = 0; n < windowed.length; n++) windowed[n]! *= window[n]!;
}

function square(power: Float64Array, spectrum: Float64Array, scale: number): void {
  for (let k = 0; k < power.length; k++) {
    const re = spectrum[2 * k]!;
    const im = spectrum[2 * k + 1]!;
    power[k] = scale * (re * re + im * im);
  }
}
