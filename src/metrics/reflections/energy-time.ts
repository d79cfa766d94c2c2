import { analyticBand, type AnalyticSignal, envelopeOf } from "../../dsp/analytic-band.js";
import { paddedCut } from "../../dsp/padded-cut.js";
import type { EnergyTime, ImpulseResponse } from "../../model.js";

/** Steps of the envelope per sample: a peak is then read to far finer than a step. */
export const OVERSAMPLING = 8;
const BEFORE_S = 0.02;
const AFTER_S = 0.075;

/** The 1-8 kHz envelope around the arrival. */
export interface ArrivalEnvelope {
  readonly analytic: AnalyticSignal;
  readonly envelope: Float64Array;
  readonly stepS: number;
  /** Index of the direct sound, with its fraction. */
  readonly directIndex: number;
  readonly directPeak: number;
}

/** Takes the envelope of 1-8 kHz from 20 ms before the arrival to 75 ms after it. */
export function arrivalEnvelope(impulse: ImpulseResponse): ArrivalEnvelope {
  const { sampleRate, arrivalSample } = impulse;
  const from = Math.floor(arrivalSample - BEFORE_S * sampleRate);
  const count = Math.ceil((BEFORE_S + AFTER_S) * sampleRate);
  const analytic = analyticBand(paddedCut(impulse.samples, from, count), sampleRate, OVERSAMPLING);
  const envelope = envelopeOf(analytic);
  const directIndex = (arrivalSample - from) * OVERSAMPLING;
  return {
    analytic,
    envelope,
    stepS: 1 / (sampleRate * OVERSAMPLING),
    directIndex,
    directPeak: envelope[Math.round(directIndex)]!,
  };
}

const CURVE_STEP_S = 0.00005;
const CURVE_FROM_S = -0.005;
const CURVE_TO_S = 0.06;
const CURVE_FLOOR_DB = -100;

/**
 * The energy-time curve for pages and tables: the strongest value of the envelope in each 0.05 ms, dB re the direct peak.
 */
export function energyTimeCurve(arrival: ArrivalEnvelope): EnergyTime {
  const steps = Math.round((CURVE_TO_S - CURVE_FROM_S) / CURVE_STEP_S);
  const perStep = CURVE_STEP_S / arrival.stepS;
  const levelDb = Array.from({ length: steps }, (_, step) => {
    const centre = arrival.directIndex + (CURVE_FROM_S / CURVE_STEP_S + step) * perStep;
    let most = 0;
    for (let n = Math.ceil(centre - perStep / 2); n < centre + perStep / 2; n++)
      most = Math.max(most, arrival.envelope[n] ?? 0);
    return most > 0 ? Math.max(CURVE_FLOOR_DB, 20 * Math.log10(most / arrival.directPeak)) : null;
  });
  return { startS: CURVE_FROM_S, stepS: CURVE_STEP_S, levelDb };
}
