import { bandNoise, meanSquare } from "./band-noise.js";
import type { LowResponse } from "./low-response.js";
import { type Products, shiftedProducts } from "./signal-space.js";
import { bandLength, bandSignal, type SubBand } from "./sub-band.js";

/** One band of several responses, all of one length. */
export interface BandView {
  readonly band: SubBand;
  /** After the arrival. */
  readonly startS: number;
  /** Each divided by its scale, which leaves noise of variance 1 or less. */
  readonly signals: readonly Float64Array[];
  readonly scales: readonly number[];
  readonly products: readonly Products[];
}

/** A few exponentials do not explain a real room further down than this share of its level: a choice of ours. */
const MODEL_ERROR = 1e-3;
/** As long as something stands over the noise is looked at, within these limits; of quick cycles less is needed. */
const LOOK_S = { shortest: 0.5, longest: 1.5 } as const;
const LOOK_CYCLES = 150;
/** With less of the decay recorded no mode is told from its neighbours. */
const LEAST_RECORDED_S = 0.35;
const BLOCK_S = 0.05;

/**
 * Looks at one band of several responses.
 *
 * @param responses - all at the band's low rate
 * @param startS - after the arrival
 * @returns null where there are none, or they are too short, or one of them is silent
 */
export function viewBand(responses: readonly LowResponse[], band: SubBand, startS: number): BandView | null {
  const from = Math.round(startS * band.lowRate);
  const wantedS = Math.min(LOOK_S.longest, Math.max(LOOK_S.shortest, LOOK_CYCLES / band.coreHz[1]));
  const recorded = responses.map(({ samples }) => bandLength(band, samples.length - from));
  const longest = Math.min(Math.floor(wantedS * band.sampleRate), ...recorded);
  if (responses.length === 0 || longest < LEAST_RECORDED_S * band.sampleRate) return null;
  const whole = responses.map(({ samples }) => bandSignal(samples, band, from, longest));
  const noise = responses.map((response) => bandNoise(response, band));
  const sunk = Math.max(...whole.map((signal, k) => sunkAfter(signal, noise[k]!, band.sampleRate)));
  const count = Math.min(longest, Math.max(sunk, Math.floor(LOOK_S.shortest * band.sampleRate)));
  const raw = whole.map((signal) => signal.subarray(0, count));
  const scales = raw.map((signal, k) => Math.sqrt(noise[k]! + MODEL_ERROR ** 2 * meanSquare(signal)));
  if (scales.some((scale) => !(scale > 0))) return null;
  const signals = raw.map((signal, k) => signal.map((value) => value / scales[k]!));
  return { band, startS: from / band.lowRate, signals, scales, products: signals.map(shiftedProducts) };
}

/** Samples after which a signal stands no more over noise of the variance given. */
function sunkAfter(signal: Float64Array, noise: number, sampleRate: number): number {
  const block = Math.ceil(BLOCK_S * sampleRate);
  let end = signal.length - (signal.length % block);
  while (end > 0 && meanSquare(signal.subarray(end - block, end)) < noise) end -= block;
  return end;
}
