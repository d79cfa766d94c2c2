import { analyticBand, envelopeOf, parabolicPeak } from "../dsp/analytic-band.js";
import { cutLags } from "./deconvolve.js";

export interface Arrival {
  /** Lag of the direct sound's envelope peak, in samples, with its fraction. */
  readonly lagSamples: number;
  /** Sign of the response's largest swing around that peak, all frequencies together. */
  readonly polarity: 1 | -1;
  /** Peak of the envelope, linear. */
  readonly peak: number;
}

const OVERSAMPLING = 4;
/** Reflections may be stronger than the direct sound, by less than this. */
const FIRST_WITHIN = 10 ** (-12 / 20);
/** How far before the strongest arrival an earlier one is looked for. */
const LOOK_BACK_S = 0.02;
const MARGIN_S = 0.01;
/** Where the direct sound's largest swing is looked for. */
const SWING_BEFORE_S = 0.0003;
const SWING_AFTER_S = 0.0005;

/**
 * Finds the first arrival in a circular response: the first peak of the 1-8 kHz envelope within 12 dB of the strongest.
 *
 * @param circular - response by lag, shape `[n]`
 * @param range - lags between which the strongest arrival is looked for, in samples
 * @returns lag and polarity of the direct sound; null if the range is silent
 */
export function findArrival(
  circular: Float64Array,
  sampleRate: number,
  range: readonly [number, number],
): Arrival | null {
  const from = Math.floor(range[0] - (LOOK_BACK_S + MARGIN_S) * sampleRate);
  const count = Math.ceil(range[1] + MARGIN_S * sampleRate) - from;
  const samples = cutLags(circular, from, count);
  const analytic = analyticBand(samples, sampleRate, OVERSAMPLING);
  const envelope = envelopeOf(analytic);
  const first = Math.round(MARGIN_S * sampleRate) * OVERSAMPLING;
  const end = count * OVERSAMPLING - first;
  let strongest = first;
  for (let n = first; n < end; n++) if (envelope[n]! > envelope[strongest]!) strongest = n;
  const most = envelope[strongest]!;
  if (!(most > 0)) return null;
  const earliest = Math.max(first, strongest - Math.round(LOOK_BACK_S * sampleRate) * OVERSAMPLING);
  let index = earliest;
  while (index < strongest && !isPeak(envelope, index, FIRST_WITHIN * most)) index++;
  const peak = parabolicPeak(envelope, index);
  const at = peak.at * analytic.step;
  return { lagSamples: from + at, polarity: polarityAround(samples, at, sampleRate), peak: peak.value };
}

function polarityAround(samples: Float64Array, at: number, sampleRate: number): 1 | -1 {
  let largest = 0;
  const end = Math.min(samples.length, Math.ceil(at + SWING_AFTER_S * sampleRate));
  for (let n = Math.max(0, Math.floor(at - SWING_BEFORE_S * sampleRate)); n < end; n++) {
    if (Math.abs(samples[n]!) > Math.abs(largest)) largest = samples[n]!;
  }
  return largest < 0 ? -1 : 1;
}

function isPeak(envelope: Float64Array, index: number, limit: number): boolean {
  const value = envelope[index]!;
  return value >= limit && value > envelope[index - 1]! && value >= envelope[index + 1]!;
}
