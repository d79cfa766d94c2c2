import { forwardReal, inverseReal, transformSize } from "./fft.js";

/** The cepstrum of a curve with steep flanks is long: folded over itself it would bend the curve. */
const CEPSTRUM_ROOM = 4;
/** Share of the taps over which the end is faded out. */
const FADED = 0.25;

/**
 * Makes the impulse response of the least delay that has a given magnitude.
 *
 * All its energy comes as early as the magnitude allows, so a mix that is filtered with it is coloured and neither delayed nor
 * smeared ahead of its attacks.
 *
 * @param levelDb - magnitude by frequency in Hz, asked from 0 to half the sample rate; finite
 * @param taps - length of the response, at least 4; its last quarter is faded out
 * @returns shape `[taps]`
 * @throws {RangeError} if a level is not finite
 * @remarks Source: A. V. Oppenheim, R. W. Schafer, Discrete-Time Signal Processing (1989), chapter 12: the minimum-phase
 * sequence from the folded real cepstrum (from memory; a textbook method).
 * @example minimumPhase(() => 0, 48_000, 8) // [1, 0, 0, 0, 0, 0, 0, 0]
 */
export function minimumPhase(levelDb: (frequencyHz: number) => number, sampleRate: number, taps: number): Float64Array {
  const size = CEPSTRUM_ROOM * transformSize(Math.max(4, taps));
  const logarithm = new Float64Array(size + 2);
  for (let k = 0; k <= size / 2; k++) {
    const level = levelDb((k * sampleRate) / size);
    if (!Number.isFinite(level))
      throw new RangeError(`level ${level} dB at ${(k * sampleRate) / size} Hz is not finite`);
    logarithm[2 * k] = (level * Math.LN10) / 20;
  }
  const cepstrum = inverseReal(logarithm);
  for (let n = 1; n < size / 2; n++) cepstrum[n]! *= 2;
  cepstrum.fill(0, size / 2 + 1);
  const spectrum = forwardReal(cepstrum, size);
  for (let k = 0; k <= size / 2; k++) {
    const magnitude = Math.exp(spectrum[2 * k]!);
    const phase = spectrum[2 * k + 1]!;
    spectrum[2 * k] = magnitude * Math.cos(phase);
    spectrum[2 * k + 1] = magnitude * Math.sin(phase);
  }
  const response = inverseReal(spectrum).slice(0, taps);
  const fadeFrom = Math.ceil((1 - FADED) * taps);
  for (let n = fadeFrom; n < taps; n++) {
    response[n]! *= 0.5 + 0.5 * Math.cos((Math.PI * (n - fadeFrom)) / (taps - fadeFrom));
  }
  return response;
}
