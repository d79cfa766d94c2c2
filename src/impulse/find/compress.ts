import { decimate } from "../../dsp/decimate.js";
import { fittingSize, forwardReal, inverseReal } from "../../dsp/fft.js";
import type { Excitation } from "../excitation.js";

const SEARCH_BAND_HZ = [60, 1500] as const;

export interface Compressed {
  readonly response: Float64Array;
  /** Lag of the first value, in decimated samples. */
  readonly firstLag: number;
}

/** Whitened correlation with the sweep: sharp peaks where sweeps begin. */
export function compress(heard: Float64Array, sweep: Float64Array, rate: number): Compressed {
  const size = fittingSize(heard.length + sweep.length);
  const spectrum = forwardReal(heard, size);
  const played = forwardReal(sweep, size);
  const bin = (hz: number): number => Math.min(size / 2, Math.round((hz * size) / rate));
  const from = bin(SEARCH_BAND_HZ[0]);
  const to = bin(SEARCH_BAND_HZ[1]);
  whiten(spectrum, played, from, to);
  spectrum.fill(0, 0, 2 * from);
  spectrum.fill(0, 2 * to + 2);
  const circular = inverseReal(spectrum);
  const firstLag = -sweep.length;
  const response = new Float64Array(heard.length + sweep.length);
  response.set(circular.subarray(size + firstLag));
  response.set(circular.subarray(0, heard.length), sweep.length);
  return { response, firstLag };
}

/** Divides a range of bins by those of the sweep, in place. */
function whiten(spectrum: Float64Array, played: Float64Array, from: number, to: number): void {
  let most = 0;
  for (let k = from; k <= to; k++) {
    const pr = played[2 * k]!;
    const pi = played[2 * k + 1]!;
    most = Math.max(most, k * (pr * pr + pi * pi));
  }
  for (let k = from; k <= to; k++) {
    const re = spectrum[2 * k]!;
    const im = spectrum[2 * k + 1]!;
    const pr = played[2 * k]!;
    const pi = played[2 * k + 1]!;
    // A sweep's energy falls with frequency: the floor under the division falls with it.
    const scale = 1 / (pr * pr + pi * pi + (1e-3 * most) / k);
    spectrum[2 * k] = scale * (re * pr + im * pi);
    spectrum[2 * k + 1] = scale * (im * pr - re * pi);
  }
}

const decimatedSweeps = new WeakMap<Excitation, Float64Array>();

/** The sweep at the search's rate, kept for the next recording. */
export function decimatedSweep(excitation: Excitation, factor: number): Float64Array {
  const known = decimatedSweeps.get(excitation);
  if (known) return known;
  const sweep = decimate(excitation.samples(), factor);
  decimatedSweeps.set(excitation, sweep);
  return sweep;
}
