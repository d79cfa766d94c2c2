import type { ImpulseResponse } from "../model.js";

const LOOK_BACK_S = 0.003;
const BELOW_PEAK = 10 ** (-20 / 20);

/**
 * Finds where the direct sound begins: the first sample within 20 dB of its peak, at most 3 ms ahead of the arrival.
 *
 * Decay and clarity begin here; the arrival itself is the peak of an envelope and has half the direct sound before it.
 *
 * @returns index in the response
 * @remarks Source: ISO 3382-1:2009 A.2.1, start of the impulse response, from memory.
 */
export function onsetSample(impulse: ImpulseResponse): number {
  const { samples, sampleRate, arrivalSample } = impulse;
  const arrival = Math.round(arrivalSample);
  const reach = Math.round(0.0005 * sampleRate);
  let peak = 0;
  for (let n = Math.max(0, arrival - reach); n <= Math.min(samples.length - 1, arrival + reach); n++) {
    peak = Math.max(peak, Math.abs(samples[n]!));
  }
  let onset = Math.max(0, arrival - Math.round(LOOK_BACK_S * sampleRate));
  while (onset < arrival && Math.abs(samples[onset]!) < BELOW_PEAK * peak) onset++;
  return onset;
}
