import { forwardReal, transformSize } from "../../dsp/fft.js";
import { powerOf } from "../../dsp/log-power.js";
import { peakOf } from "../../dsp/peak.js";
import type { ImpulseResponse } from "../../model.js";

/** Energies before and after a time limit, by bin: the response is split first and filtered after. */
export interface SplitPower {
  readonly limitS: number;
  readonly early: Float64Array;
  readonly late: Float64Array;
}

/** An impulse response from its arrival on. */
export interface WholeSpectrum {
  readonly sampleRate: number;
  /** Samples from the arrival to the last one that is not nothing. */
  readonly length: number;
  /** Half spectrum, shape `[size + 2]`. */
  readonly spectrum: Float64Array;
}

/** What all bands of one impulse response share. */
export interface SplitSpectra extends WholeSpectrum {
  readonly power: Float64Array;
  /** First moment of the energy in time by bin: s times squared magnitude. */
  readonly moment: Float64Array;
  readonly splits: readonly SplitPower[];
}

/** Samples this far below the peak are the rounding of a 64-bit transform, or padding. */
const NOTHING = 1e-13;
/** Room after the response for the ringing of the lowest band filters, as far as it costs little. */
const LEAST_PADDING_S = 0.25;
const DOUBLED_UP_TO_S = 1.5;

/**
 * Transforms an impulse response from its arrival on, whole and split at time limits.
 *
 * Everything before the arrival is ignored. The arrival's fraction is dropped: time zero is the last whole sample at or before
 * it, less than one sample early.
 *
 * @param limitsS - time limits after the arrival, s
 * @returns null when nothing follows the arrival
 */
export function splitSpectra(
  impulse: Pick<ImpulseResponse, "samples" | "sampleRate" | "arrivalSample">,
  limitsS: readonly number[],
): SplitSpectra | null {
  const samples = soundOf(impulse);
  const whole = transformed(samples, impulse.sampleRate);
  if (!whole) return null;
  const { spectrum, sampleRate } = whole;
  return {
    ...whole,
    power: powerOf(spectrum),
    moment: momentOf(spectrum, samples, sampleRate),
    splits: limitsS.map((limitS) => splitAt(spectrum, samples, limitS, sampleRate)),
  };
}

/** Transforms an impulse response from its arrival on, for decays alone. */
export function wholeSpectrum(
  impulse: Pick<ImpulseResponse, "samples" | "sampleRate" | "arrivalSample">,
): WholeSpectrum | null {
  return transformed(soundOf(impulse), impulse.sampleRate);
}

function transformed(samples: Float64Array, sampleRate: number): WholeSpectrum | null {
  if (samples.length < 2) return null;
  const spectrum = forwardReal(samples, paddedSize(samples.length, sampleRate));
  return { sampleRate, length: samples.length, spectrum };
}

function soundOf({ samples, arrivalSample }: Pick<ImpulseResponse, "samples" | "arrivalSample">): Float64Array {
  const from = Math.max(0, Math.floor(arrivalSample));
  const peak = peakOf(samples, from);
  let end = samples.length;
  while (end > from && Math.abs(samples[end - 1]!) <= NOTHING * peak) end--;
  return samples.subarray(from, end);
}

function paddedSize(length: number, sampleRate: number): number {
  const size = transformSize(Math.max(4, length));
  const tight = size - length < LEAST_PADDING_S * sampleRate;
  return tight && size < DOUBLED_UP_TO_S * sampleRate ? 2 * size : size;
}

function splitAt(spectrum: Float64Array, samples: Float64Array, limitS: number, sampleRate: number): SplitPower {
  const size = spectrum.length - 2;
  const early = forwardReal(samples.subarray(0, Math.round(limitS * sampleRate)), size);
  const earlyPower = new Float64Array(size / 2 + 1);
  const latePower = new Float64Array(size / 2 + 1);
  for (let k = 0; k < earlyPower.length; k++) {
    const re = early[2 * k]!;
    const im = early[2 * k + 1]!;
    earlyPower[k] = re * re + im * im;
    latePower[k] = (spectrum[2 * k]! - re) ** 2 + (spectrum[2 * k + 1]! - im) ** 2;
  }
  return { limitS, early: earlyPower, late: latePower };
}

/**
 * The moment that a filter without phase would leave: the real part of conj(X) times the transform of t x(t). A filter's
 * magnitude is laid over it afterwards; its slope only adds an imaginary part.
 */
function momentOf(spectrum: Float64Array, samples: Float64Array, sampleRate: number): Float64Array {
  const weighted = new Float64Array(samples.length);
  for (let n = 0; n < samples.length; n++) weighted[n] = (samples[n]! * n) / sampleRate;
  const other = forwardReal(weighted, spectrum.length - 2);
  const moment = new Float64Array(spectrum.length / 2);
  for (let k = 0; k < moment.length; k++) {
    moment[k] = spectrum[2 * k]! * other[2 * k]! + spectrum[2 * k + 1]! * other[2 * k + 1]!;
  }
  return moment;
}
