import { ARRIVAL_BAND } from "../dsp/analytic-band.js";
import type { ImpulseResponse } from "../model.js";

/** Stated for the shape of a direct sound, which moves its peak a little: a choice of ours. */
const ARRIVAL_FLOOR_S = 1e-6;

/**
 * Standard uncertainty of an arrival: what noise does to the place of an envelope's peak, by its share of the peak and the
 * envelope's bandwidth, and a floor.
 */
export function arrivalUncertainty(impulse: ImpulseResponse): number {
  const { noise, sampleRate, samples, arrivalSample } = impulse;
  const peak = Math.abs(samples[Math.round(arrivalSample)] ?? 0);
  if (!noise || !(peak > 0)) return ARRIVAL_FLOOR_S;
  let integral = 0;
  for (let k = 1; k < noise.frequencyHz.length; k++) {
    const hz = noise.frequencyHz[k]!;
    if (hz >= ARRIVAL_BAND.lowHz && hz <= ARRIVAL_BAND.highHz) {
      integral += noise.powerPerSecond[k]! * (hz - noise.frequencyHz[k - 1]!);
    }
  }
  const rms = Math.sqrt(2 * integral) / sampleRate;
  const byNoiseS = rms / peak / (2 * Math.PI * (0.25 * (ARRIVAL_BAND.highHz - ARRIVAL_BAND.lowHz)));
  return Math.hypot(byNoiseS, ARRIVAL_FLOOR_S);
}
