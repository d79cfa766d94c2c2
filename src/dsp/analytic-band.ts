import { forwardReal, inverseComplex, transformSize } from "./fft.js";

/** The band in which arrivals and reflections are read. */
export const ARRIVAL_BAND = { lowHz: 1000, highHz: 8000 } as const;

const EDGE_OCTAVES = 0.5;

export interface AnalyticSignal {
  /** Interleaved real and imaginary parts, shape `[2 * n]`. */
  readonly values: Float64Array;
  /** Samples of the input per step of `values`. */
  readonly step: number;
}

/**
 * Band-limits a signal without moving it and returns its analytic form on a finer time grid.
 *
 * The magnitude is the envelope; zero phase, raised-cosine edges half an octave wide outside the band, so that a pulse
 * keeps its place and rings equally on both sides.
 *
 * @param samples - shape `[n]`; should be quiet at both ends, since the band filter wraps around
 * @param sampleRate - Hz; a band above half of it is cut there
 * @param oversampling - a power of two: time steps per sample
 * @returns shape `[2 * m]`, m at least `n * oversampling`
 */
export function analyticBand(
  samples: ArrayLike<number>,
  sampleRate: number,
  oversampling: number,
  band: { lowHz: number; highHz: number } = ARRIVAL_BAND,
): AnalyticSignal {
  const size = transformSize(Math.max(4, samples.length));
  const spectrum = forwardReal(samples, size);
  const fine = new Float64Array(2 * size * oversampling);
  const binHz = sampleRate / size;
  const last = Math.min(size / 2 - 1, Math.floor((band.highHz * 2 ** EDGE_OCTAVES) / binHz));
  for (let k = Math.max(1, Math.ceil((band.lowHz * 2 ** -EDGE_OCTAVES) / binHz)); k <= last; k++) {
    const gain = 2 * oversampling * edgeGain(k * binHz, band.lowHz, band.highHz);
    fine[2 * k] = gain * spectrum[2 * k]!;
    fine[2 * k + 1] = gain * spectrum[2 * k + 1]!;
  }
  return { values: inverseComplex(fine), step: 1 / oversampling };
}

function edgeGain(frequencyHz: number, lowHz: number, highHz: number): number {
  const octavesOutside = Math.max(Math.log2(lowHz / frequencyHz), Math.log2(frequencyHz / highHz), 0);
  return octavesOutside >= EDGE_OCTAVES ? 0 : 0.5 + 0.5 * Math.cos((Math.PI * octavesOutside) / EDGE_OCTAVES);
}

/** Magnitude of an analytic signal, shape `[n]`. */
export function envelopeOf(analytic: AnalyticSignal): Float64Array {
  const { values } = analytic;
  const envelope = new Float64Array(values.length / 2);
  for (let n = 0; n < envelope.length; n++) {
    const re = values[2 * n]!;
    const im = values[2 * n + 1]!;
    // Not Math.hypot, which is many times slower: no response comes near the ends of a double's range.
    envelope[n] = Math.sqrt(re * re + im * im);
  }
  return envelope;
}

/**
 * Refines a local maximum with a parabola through it and its neighbours.
 *
 * @returns the maximum's place, in steps, and its value
 */
export function parabolicPeak(curve: ArrayLike<number>, index: number): { at: number; value: number } {
  const middle = curve[index] ?? 0;
  const before = curve[index - 1] ?? middle;
  const after = curve[index + 1] ?? middle;
  const bend = before - 2 * middle + after;
  if (bend >= 0) return { at: index, value: middle };
  const offset = (0.5 * (before - after)) / bend;
  return { at: index + offset, value: middle - 0.25 * (before - after) * offset };
}
