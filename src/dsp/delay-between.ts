import { forwardReal, inverseReal, transformSize } from "./fft.js";

export interface Delay {
  /** How much later the second signal comes, in samples. */
  readonly samples: number;
  /** Standard uncertainty, in samples, from the scatter of the phase about a straight line. */
  readonly uncertaintySamples: number;
  /** Normalised correlation at the nearest whole sample, -1..1; near 1 when both are the same sound. */
  readonly correlation: number;
}

/** Rounding of double arithmetic and of the phase fit; below it no scatter is believed. */
const LEAST_UNCERTAINTY_SAMPLES = 1e-4;

/**
 * Finds the delay between two recordings of the same sound to a small fraction of a sample.
 *
 * Correlation gives the whole samples, the slope of the cross spectrum's phase the rest.
 *
 * @param first - shape `[n]`
 * @param second - shape `[n]`, the same sound, moved by at most n/2 samples
 * @param bandHz - where the sound has energy
 * @throws {RangeError} if the lengths differ
 * @remarks Source: phase-slope delay estimation, weighted least squares; common practice.
 */
export function delayBetween(
  first: ArrayLike<number>,
  second: ArrayLike<number>,
  sampleRate: number,
  bandHz: readonly [number, number],
): Delay {
  if (first.length !== second.length) throw new RangeError(`lengths differ: ${first.length} and ${second.length}`);
  const size = transformSize(2 * first.length);
  const a = forwardReal(first, size);
  const b = forwardReal(second, size);
  const from = Math.max(1, Math.ceil((bandHz[0] * size) / sampleRate));
  const to = Math.min(size / 2 - 1, Math.floor((bandHz[1] * size) / sampleRate));
  const cross = new Float64Array(size + 2);
  const energies = crossBetween(cross, a, b, from, to);
  const correlation = inverseReal(cross);
  const best = placeOfHighest(correlation);
  const whole = best > size / 2 ? best - size : best;
  const norm = (2 / size) * Math.sqrt(energies);
  const likeness = norm > 0 ? correlation[best]! / norm : 0;

  const { fraction, scatter, slopeBottom } = phaseSlope(cross, (2 * Math.PI) / size, whole, from, to);
  // Zero padding to twice the length makes neighbouring bins carry the same information: count each twice.
  const padding = size / first.length;
  const uncertainty = slopeBottom > 0 ? Math.sqrt(scatter * padding) / slopeBottom : Number.POSITIVE_INFINITY;
  return {
    samples: whole + fraction,
    uncertaintySamples: Math.max(uncertainty, LEAST_UNCERTAINTY_SAMPLES),
    correlation: likeness,
  };
}

/** Fills in a range of the cross spectrum. Returns the product of the two energies in it. */
function crossBetween(cross: Float64Array, a: Float64Array, b: Float64Array, from: number, to: number): number {
  let energyA = 0;
  let energyB = 0;
  for (let k = from; k <= to; k++) {
    const ar = a[2 * k]!;
    const ai = a[2 * k + 1]!;
    const br = b[2 * k]!;
    const bi = b[2 * k + 1]!;
    cross[2 * k] = ar * br + ai * bi;
    cross[2 * k + 1] = ar * bi - ai * br;
    energyA += ar * ar + ai * ai;
    energyB += br * br + bi * bi;
  }
  return energyA * energyB;
}

function placeOfHighest(values: Float64Array): number {
  let best = 0;
  for (let n = 1; n < values.length; n++) if (values[n]! > values[best]!) best = n;
  return best;
}

/** The line through the phase that is left when whole samples are taken off, in samples, and the scatter about it. */
function phaseSlope(
  cross: Float64Array,
  turn: number,
  whole: number,
  from: number,
  to: number,
): { fraction: number; scatter: number; slopeBottom: number } {
  let slopeTop = 0;
  let slopeBottom = 0;
  const phases = new Float64Array(to - from + 1);
  for (let k = from; k <= to; k++) {
    const omega = turn * k;
    const cosine = Math.cos(omega * whole);
    const sine = Math.sin(omega * whole);
    const real = cross[2 * k]! * cosine - cross[2 * k + 1]! * sine;
    const imaginary = cross[2 * k]! * sine + cross[2 * k + 1]! * cosine;
    const weight = Math.sqrt(real * real + imaginary * imaginary);
    const phase = Math.atan2(imaginary, real);
    phases[k - from] = phase;
    slopeTop -= weight * omega * phase;
    slopeBottom += weight * omega * omega;
  }
  const fraction = slopeBottom > 0 ? slopeTop / slopeBottom : 0;
  let scatter = 0;
  for (let k = from; k <= to; k++) {
    const omega = turn * k;
    const re = cross[2 * k]!;
    const im = cross[2 * k + 1]!;
    const error = omega * (phases[k - from]! + omega * fraction);
    scatter += (re * re + im * im) * error * error;
  }
  return { fraction, scatter, slopeBottom };
}
