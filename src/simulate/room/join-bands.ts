import { bandLimit } from "../band-limit.js";
import type { ArrivalGrid } from "./arrival-grid.js";
import type { Bands } from "./distinct-bands.js";
import { octaveShares } from "./octave-split.js";

/**
 * Adds the bands' spectra by their shares, and lays the leak and the band limit over the sum.
 *
 * @returns half spectrum as in `dsp/fft`, shape `[size + 2]`
 */
export function joinBands(
  grid: ArrivalGrid,
  bands: Bands,
  leakHz: number,
  sampleRate: number,
  size: number,
): Float64Array {
  const spectra = bands.members.map((_, index) => grid.spectrum(index));
  const sum = new Float64Array(size + 2);
  for (let k = 0; k <= size / 2; k++) {
    const frequencyHz = (k * sampleRate) / size;
    const { band, share, above } = octaveShares(frequencyHz);
    const lower = spectra[bands.gridOf[band]!]!;
    const upper = spectra[bands.gridOf[above > 0 ? band + 1 : band]!]!;
    const limit = bandLimit(frequencyHz / sampleRate);
    const real = limit * (share * lower[2 * k]! + above * upper[2 * k]!);
    const imaginary = limit * (share * lower[2 * k + 1]! + above * upper[2 * k + 1]!);
    // Second-order Butterworth high-pass at the leak: s^2 / (s^2 + sqrt(2) s + 1), s = i f / leakHz.
    const ratio = leakHz > 0 ? frequencyHz / leakHz : Infinity;
    const inverse = 1 / ratio;
    const passR = ratio === 0 ? 0 : (1 - inverse * inverse) / (1 + inverse ** 4);
    const passI = ratio === 0 ? 0 : (Math.SQRT2 * inverse) / (1 + inverse ** 4);
    sum[2 * k] = real * passR - imaginary * passI;
    sum[2 * k + 1] = real * passI + imaginary * passR;
  }
  return sum;
}
