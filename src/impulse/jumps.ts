import { extrapolate, predictor } from "../dsp/linear-prediction.js";
import { peakOf } from "../dsp/peak.js";
import type { Signal } from "../model.js";
import type { Excitation } from "./excitation.js";
import type { Residual } from "./residual.js";

/** A place where the recording breaks off from one sample to the next. */
export interface Jump {
  /** Of the file. */
  readonly sample: number;
  /**
   * The sweep goes on at another phase: samples are missing, or came twice. Otherwise it goes on as if nothing had been:
   * something was added for a moment.
   */
  readonly persists: boolean;
}

/** In what is not explained, bends so many times the usual one are worth a look: normal noise reaches 7 in a million. */
const WORTH_A_LOOK = 14;
const BLOCK_S = 0.1;
/** Bends nearer than this belong together. */
const TOGETHER_S = 0.003;
/** Each look costs; the clearest bends are looked at. */
const MOST_LOOKS = 6;
/** Where the response explains nearly all, the rest bends less than noise does: that is no measure of what is usual. */
const LEAST_SHARE = 0.5;

const ORDER = 20;
const GUARD = 40;
/** In errors of the prediction before it: without a fault they stay under 4, a knock's onset under 12. Both measured. */
const LEAST_JUMP = 14;
/** What goes through air swells: a jump stands so many times over every error of the last few milliseconds. */
const SUDDEN = 4;
const SUDDEN_SAMPLES = 150;
/** So long after the jump the sweep is compared with how it would have gone on. */
const SETTLED = 12;
const PERSISTS_DB = -8;
const PERSISTS_RE_JUMP_DB = -3;

/**
 * Finds where a recorded sweep breaks off: an audio buffer that was lost or came twice.
 *
 * A sweep with its room is predictable from its last few periods, to the noise. Where it is not, samples are missing there, or
 * something else happened within a sample or two, which no sound does that went through air: the sweep a moment later tells
 * which. What remains when the response has explained its part points to the places to look at.
 *
 * @param arrivalLag - of the response, in samples after `residual.startS`
 * @returns places, the earliest first
 */
export function findJumps(
  { samples, sampleRate }: Signal,
  residual: Residual,
  { growthS, sweptHz, zeroSample }: Excitation,
  arrivalLag: number,
): Jump[] {
  if (growthS === null) return [];
  const startSample = Math.round(residual.startS * sampleRate);
  const zero = startSample + arrivalLag + zeroSample;
  const frequencyAt = (sample: number): number => sweptHz[0] * Math.exp((sample - zero) / (growthS * sampleRate));
  const last = zero + growthS * Math.log(sweptHz[1] / sweptHz[0]) * sampleRate;
  const { unexplained } = residual;
  const scale = sampleRate / unexplained.sampleRate;
  const swept = unexplained.samples.subarray(0, Math.floor((last - startSample) / scale));
  const looks = bendsOf({ ...unexplained, samples: swept })
    .map((n) => startSample + Math.round(n * scale))
    .filter((sample) => sample > zero);
  return looks.flatMap((sample) => jumpNear(samples, sample, sampleRate / frequencyAt(sample)) ?? []);
}

/** Where the second difference stands out of its own usual size; the clearest few, the earliest first. */
function bendsOf({ samples, sampleRate }: Signal): number[] {
  const block = Math.round(BLOCK_S * sampleRate);
  const sizes = bendSizes(samples, Math.floor((samples.length - 2) / block) * block);
  const usual = Array.from({ length: sizes.length / block }, (_, b) =>
    median(everyThird(sizes.subarray(b * block, (b + 1) * block))),
  );
  const least = LEAST_SHARE * median(Float64Array.from(usual));
  const bends: { place: number; last: number; clarity: number }[] = [];
  for (const n of placesOver(sizes, block, (b) => WORTH_A_LOOK * Math.max(usual[b]!, least))) {
    const clarity = sizes[n]! / Math.max(usual[Math.floor(n / block)]!, least);
    const open = bends.at(-1);
    if (open && n - open.last <= TOGETHER_S * sampleRate) {
      open.last = n;
      // The sharpest of them: what the response explains is taken out of a jump on both sides of it.
      if (clarity > open.clarity) Object.assign(open, { place: n, clarity });
    } else bends.push({ place: n, last: n, clarity });
  }
  const clearest = bends.sort((a, b) => b.clarity - a.clarity).slice(0, MOST_LOOKS);
  return clearest.map(({ place }) => place + 1).sort((a, b) => a - b);
}

function bendSizes(samples: Signal["samples"], count: number): Float64Array {
  const sizes = new Float64Array(count);
  for (let n = 0; n < count; n++) sizes[n] = Math.abs(samples[n + 2]! - 2 * samples[n + 1]! + samples[n]!);
  return sizes;
}

/** Where values stand over the limit of their block. */
function placesOver(values: Float64Array, block: number, limitOf: (block: number) => number): number[] {
  const places: number[] = [];
  for (let from = 0; from < values.length; from += block)
    collectOver(places, values, from, from + block, limitOf(from / block));
  return places;
}

function collectOver(places: number[], values: Float64Array, from: number, to: number, limit: number): void {
  for (let n = from; n < to; n++) if (values[n]! > limit) places.push(n);
}

/** Of thousands, a third tell the median as well; sorting all of them was most of the work. */
function everyThird(values: Float64Array): Float64Array {
  const third = new Float64Array(Math.ceil(values.length / 3));
  for (let n = 0; n < third.length; n++) third[n] = values[3 * n]!;
  return third;
}

/** @param values - left in order */
function median(values: Float64Array): number {
  return values.sort()[values.length >> 1] ?? 0;
}

/** @param period - of the sweep at this place, in samples */
function jumpNear(samples: Signal["samples"], place: number, period: number): Jump | null {
  const count = Math.round(Math.min(1400, Math.max(200, 14 * period)));
  const compared = Math.round(Math.min(96, Math.max(12, 1.5 * period)));
  const until = place - GUARD;
  if (until < Math.max(count, SUDDEN_SAMPLES + ORDER) || place + GUARD + SETTLED + compared > samples.length)
    return null;
  const coefficients = predictor(samples, until - count, count, ORDER);
  const errorAt = (n: number): number => Math.abs(samples[n]! - extrapolate(samples, n, coefficients, 1)[0]!);
  let sum = 0;
  const known = Math.min(400, count - ORDER);
  for (let n = until - known; n < until; n++) sum += errorAt(n) ** 2;
  const usual = Math.sqrt(sum / known);
  let most = 0;
  let sample = place;
  for (let n = until; n < place + GUARD; n++) {
    const error = errorAt(n);
    // The first of the large errors: those after it predict from samples beyond the jump.
    if (most < LEAST_JUMP * usual && error > most) sample = n;
    most = Math.max(most, error);
  }
  if (!(most > LEAST_JUMP * usual)) return null;
  for (let n = sample - SUDDEN_SAMPLES; n < sample - 2; n++) if (SUDDEN * errorAt(n) > most) return null;
  const amplitude = peakOf(samples, until - Math.round(Math.min(count, 2 * period)), until);
  const offDb = 10 * Math.log10(departure(samples, sample, coefficients, compared));
  return { sample, persists: offDb > PERSISTS_DB || offDb > 20 * Math.log10(most / amplitude) + PERSISTS_RE_JUMP_DB };
}

/** How far the signal after a jump is from what it would have been, energy re its own. */
function departure(samples: Signal["samples"], jump: number, coefficients: Float64Array, compared: number): number {
  const from = jump - 2;
  const expected = extrapolate(samples, from, coefficients, 2 + SETTLED + compared);
  let off = 0;
  let energy = 0;
  for (let n = jump + SETTLED; n < jump + SETTLED + compared; n++) {
    off += (samples[n]! - expected[n - from]!) ** 2;
    energy += samples[n]! ** 2;
  }
  return off / energy;
}
