import { forwardReal, inverseReal, transformSize } from "./fft.js";

/**
 * Delays a signal by any number of samples, band-limited exactly; what leaves one end returns at the other.
 *
 * @param samples - shape `[n]`, quiet at both ends
 * @param delaySamples - positive is later
 * @returns shape `[n]`
 */
export function fractionalShift(samples: Float64Array, delaySamples: number): Float64Array {
  if (delaySamples === 0) return samples;
  const size = transformSize(Math.max(4, samples.length));
  const spectrum = forwardReal(samples, size);
  for (let k = 0; k <= size / 2; k++) {
    const angle = (-2 * Math.PI * k * delaySamples) / size;
    const cosine = Math.cos(angle);
    const sine = Math.sin(angle);
    const re = spectrum[2 * k]!;
    const im = spectrum[2 * k + 1]!;
    spectrum[2 * k] = re * cosine - im * sine;
    spectrum[2 * k + 1] = re * sine + im * cosine;
  }
  return inverseReal(spectrum).subarray(0, samples.length);
}
