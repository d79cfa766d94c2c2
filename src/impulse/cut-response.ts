import type { ImpulseResponse, NoiseSpectrum } from "../model.js";
import { type Arrival, findArrival } from "./arrival.js";
import { cutLags, type Deconvolved } from "./deconvolve.js";
import type { Excitation } from "./excitation.js";

/** One sweep's answer, cut to what is the loudspeaker and the room. */
export interface CutResponse {
  readonly impulse: ImpulseResponse;
  /** Lag of the arrival in the deconvolved response, samples. */
  readonly arrivalLag: number;
  /** File second at which the sweep's instant of the start frequency arrives. */
  readonly arrivalInFileS: number;
}

const LONGEST_BEFORE_S = 0.8;
const LONGEST_AFTER_S = 8;
/** Share of the distance to the second harmonic's response that may be used before the arrival. */
const SHARE_BEFORE = 0.8;

/** How much of the response before the arrival is kept: up to 0.8 s, never into the second harmonic's. */
export function beforeSeconds(excitation: Excitation): number {
  return Math.min(LONGEST_BEFORE_S, SHARE_BEFORE * Math.LN2 * (excitation.growthS ?? Number.POSITIVE_INFINITY));
}

/**
 * Finds the arrival and cuts the response around it.
 *
 * @param expectedLag - where the sweep search put the arrival, samples
 * @param afterSamples - how much of the response after the arrival was recorded for every frequency
 * @returns null when the response is silent there
 */
export function cutResponse(
  deconvolved: Deconvolved,
  excitation: Excitation,
  expectedLag: number,
  afterSamples: number,
  noise: NoiseSpectrum | null,
): CutResponse | null {
  const { sampleRate } = excitation;
  const reach = 0.03 * sampleRate;
  const arrival: Arrival | null = findArrival(deconvolved.circular, sampleRate, [
    expectedLag - reach,
    expectedLag + reach,
  ]);
  if (!arrival) return null;
  const before = Math.floor(beforeSeconds(excitation) * sampleRate);
  const after = Math.floor(Math.min(afterSamples, LONGEST_AFTER_S * sampleRate));
  const start = Math.floor(arrival.lagSamples) - before;
  const zero = excitation.zeroSample * deconvolved.clockRatio;
  return {
    impulse: {
      samples: cutLags(deconvolved.circular, start, before + after),
      sampleRate,
      arrivalSample: arrival.lagSamples - start,
      polarity: arrival.polarity,
      sweptHz: excitation.sweptHz,
      noise,
    },
    arrivalLag: arrival.lagSamples,
    arrivalInFileS: (deconvolved.startSample + arrival.lagSamples + zero) / sampleRate,
  };
}
