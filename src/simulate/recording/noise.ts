import { inverseReal, transformSize } from "../../dsp/fft.js";
import { Random } from "../random.js";

const AUDIBLE_HZ = [20, 20_000] as const;

/**
 * Makes white noise: equal power in every hertz, as a converter's own noise is.
 *
 * @param length - samples
 * @param rms - linear root mean square, 0 or more
 * @param seed - whole number
 * @returns shape `[length]`, normally distributed
 */
export function whiteNoise(length: number, rms: number, seed: number): Float64Array {
  const noise = new Random(seed).fillNormal(new Float64Array(length));
  for (let n = 0; n < length; n++) noise[n]! *= rms;
  return noise;
}

/**
 * Makes pink noise: equal power in every octave, as the noise of a room and its air handling roughly is.
 *
 * The expected power per hertz is exactly `1 / f` from `lowestHz` to half the sample rate and nothing below, because
 * the noise is shaped bin by bin in the frequency domain. It leaves out hum, traffic and all that comes and goes.
 *
 * @param length - samples
 * @param sampleRate - Hz
 * @param rms - linear root mean square that 20 Hz to 20 kHz is expected to have, 0 or more
 * @param seed - whole number
 * @param lowestHz - greater than 0
 * @returns shape `[length]`, normally distributed, mean 0 but for the chance of the extract
 * @throws {RangeError} if `lowestHz` is not above 0 and below half the sample rate
 */
export function pinkNoise(length: number, sampleRate: number, rms: number, seed: number, lowestHz = 10): Float64Array {
  if (!(lowestHz > 0 && lowestHz < sampleRate / 2)) {
    throw new RangeError(`lowestHz ${lowestHz} must lie between 0 and half the sample rate, ${sampleRate / 2}`);
  }
  const size = transformSize(Math.max(length, 4));
  const spectrum = new Random(seed).fillNormal(new Float64Array(size + 2));
  const binHz = sampleRate / size;
  let audible = 0;
  for (let k = 0; k <= size / 2; k++) {
    const frequencyHz = k * binHz;
    const weight = frequencyHz < lowestHz ? 0 : 1 / Math.sqrt(frequencyHz);
    spectrum[2 * k]! *= weight;
    spectrum[2 * k + 1]! *= weight;
    // Parseval: each bin pair (k, size - k) with unit normal parts carries 4 / size^2 of the mean square.
    if (frequencyHz >= AUDIBLE_HZ[0] && frequencyHz <= AUDIBLE_HZ[1]) audible += (4 * weight * weight) / (size * size);
  }
  const scale = audible > 0 ? rms / Math.sqrt(audible) : 0;
  for (let k = 0; k < spectrum.length; k++) spectrum[k]! *= scale;
  return inverseReal(spectrum).slice(0, length);
}

/**
 * Measures the root mean square of a stretch of sound.
 *
 * @param samples - linear amplitude
 * @param from - first sample counted
 * @param to - first sample no longer counted
 * @returns linear; 0 for silence and for an empty stretch
 * @example rootMeanSquare([1, -1, 1, -1], 0, 4) // 1
 */
export function rootMeanSquare(samples: ArrayLike<number>, from: number, to: number): number {
  let sum = 0;
  for (let n = from; n < to; n++) sum += samples[n]! * samples[n]!;
  return to > from ? Math.sqrt(sum / (to - from)) : 0;
}
