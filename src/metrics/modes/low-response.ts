import { decimate } from "../../dsp/decimate.js";
import { noiseAt } from "../../dsp/noise-at.js";
import { paddedCut } from "../../dsp/padded-cut.js";
import type { ImpulseResponse, NoiseSpectrum } from "../../model.js";

/** The low end of one response on few samples: all that a search for modes needs. */
export interface LowResponse {
  /** From the arrival on, on the scale of the impulse response. */
  readonly samples: Float64Array;
  readonly sampleRate: number;
  /** Of the impulse response it was taken from. */
  readonly fullRate: number;
  readonly noise: NoiseSpectrum | null;
  /** The band in which the excitation carried energy. */
  readonly sweptHz: readonly [number, number];
}

const LOW_RATE = 1000;
/** The decimating filter looks so many of the new samples to either side. */
const FILTER_REACH = 6;
/** Enough for the longest look, the band filter and a stretch of noise behind. */
const LONGEST_S = 2.5;

/**
 * Cuts out what follows the arrival and lowers its sample rate to about 1 kHz, flat up to 350 Hz.
 *
 * Sample 0 is the arrival, to half a sample of the original rate.
 */
export function lowResponse(impulse: ImpulseResponse): LowResponse {
  const factor = Math.max(1, Math.round(impulse.sampleRate / LOW_RATE));
  const arrival = Math.round(impulse.arrivalSample);
  const length = Math.min(impulse.samples.length - arrival, Math.round(LONGEST_S * impulse.sampleRate));
  const reach = FILTER_REACH * factor;
  const lowered = decimate(paddedCut(impulse.samples, arrival - reach, Math.max(0, length) + 2 * reach), factor);
  return {
    samples: lowered.slice(FILTER_REACH, FILTER_REACH + Math.max(0, Math.floor(length / factor))),
    sampleRate: impulse.sampleRate / factor,
    fullRate: impulse.sampleRate,
    noise: impulse.noise,
    sweptHz: impulse.sweptHz,
  };
}

/** Power density of the noise, per Hz and with both signs of frequency counted; null where it is not known. */
export function noiseDensity({ noise, fullRate }: LowResponse, frequencyHz: number): number | null {
  return noise && noiseAt(noise, frequencyHz) / fullRate ** 2;
}
