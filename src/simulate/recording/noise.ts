import { inverseReal, transformSize } from "../../dsp/fft.js";
import { Random } from "../random.js";

const AUDIBLE_HZ = [20, 20_000] as const;
/** Air handling and traffic go on below what is heard, but not without end. */
const LOWEST_HZ = 10;

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
export function pinkNoise(
  length: number,
  sampleRate: number,
  rms: number,
  seed: number,
  lowestHz = LOWEST_HZ,
): Float64Array {
  return backgroundNoise(length, sampleRate, { pinkRms: rms, whiteRms: 0 }, seed, lowestHz);
}

/**
 * Makes the noise of a room and of a recorder together, by one transform.
 *
 * Two independent normal noises add up to one whose power per hertz is the sum of theirs, so it is shaped to that.
 *
 * @param length - samples
 * @param sampleRate - Hz
 * @param levels - linear root mean square: of the pink part from 20 Hz to 20 kHz, of the white part in all; 0 or more
 * @param seed - whole number
 * @param lowestHz - lowest frequency of the pink part, greater than 0
 * @returns shape `[length]`, normally distributed
 * @throws {RangeError} if `lowestHz` is not above 0 and below half the sample rate
 */
export function backgroundNoise(
  length: number,
  sampleRate: number,
  { pinkRms, whiteRms }: { readonly pinkRms: number; readonly whiteRms: number },
  seed: number,
  lowestHz = LOWEST_HZ,
): Float64Array {
  if (!(lowestHz > 0 && lowestHz < sampleRate / 2)) {
    throw new RangeError(`lowestHz ${lowestHz} must lie between 0 and half the sample rate, ${sampleRate / 2}`);
  }
  const size = transformSize(Math.max(length, 4));
  const spectrum = new Random(seed).fillNormal(new Float64Array(size + 2));
  const binHz = sampleRate / size;
  // Parseval: a bin pair (k, size - k) whose parts have the variance v carries 4 v / size^2 of the mean square.
  const white = (whiteRms * whiteRms * size) / 2;
  const pink = (pinkRms * pinkRms * size * size) / (4 * sumOfInverses(binHz, size / 2));
  for (let k = 0; k <= size / 2; k++) {
    const frequencyHz = k * binHz;
    const weight = Math.sqrt(white + (frequencyHz < lowestHz ? 0 : pink / frequencyHz));
    spectrum[2 * k]! *= weight;
    spectrum[2 * k + 1]! *= weight;
  }
  return inverseReal(spectrum).slice(0, length);
}

/** Sum of 1 / f over the audible bins; 1 where there is none. */
function sumOfInverses(binHz: number, highest: number): number {
  let sum = 0;
  const last = Math.min(highest, Math.floor(AUDIBLE_HZ[1] / binHz));
  for (let k = Math.ceil(AUDIBLE_HZ[0] / binHz); k <= last; k++) sum += 1 / (k * binHz);
  return sum || 1;
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
