import { analyticBand, envelopeOf } from "../dsp/analytic-band.js";
import { paddedCut } from "../dsp/padded-cut.js";
import type { ImpulseResponse } from "../model.js";

const LOOK_BACK_S = 0.003;
const BELOW_PEAK = 10 ** (-20 / 20);
/** Around the arrival, wide enough for the band's own ringing. */
const MARGIN_S = 0.01;
const OVERSAMPLING = 4;
/** The peak lies where the arrival was found, to within rounding. */
const PEAK_REACH_S = 0.0001;

/**
 * Finds where the direct sound begins: where its envelope from 1 to 8 kHz passes 20 dB under its peak, at most 3 ms ahead of it.
 *
 * Decay and clarity begin here; the arrival itself is the peak of that envelope and has half the direct sound before it. Single
 * samples of the whole band will not do: a filter at the upper end, which no figure is about, moves the first loud one.
 *
 * @returns place in the response, in samples with a fraction
 * @remarks Source: ISO 3382-1:2009 A.2.1, start of the impulse response, from memory; the band is a choice of ours.
 */
export function onsetSample({ samples, sampleRate, arrivalSample }: ImpulseResponse): number {
  const from = Math.round(arrivalSample - LOOK_BACK_S * sampleRate - MARGIN_S * sampleRate);
  const count = Math.round((LOOK_BACK_S + 2 * MARGIN_S) * sampleRate);
  const envelope = envelopeOf(analyticBand(paddedCut(samples, from, count), sampleRate, OVERSAMPLING));
  const arrival = Math.round((arrivalSample - from) * OVERSAMPLING);
  const reach = Math.ceil(PEAK_REACH_S * sampleRate * OVERSAMPLING);
  let peak = 0;
  for (let n = arrival - reach; n <= arrival + reach; n++) peak = Math.max(peak, envelope[n]!);
  const limit = BELOW_PEAK * peak;
  const earliest = arrival - Math.round(LOOK_BACK_S * sampleRate * OVERSAMPLING);
  let n = arrival;
  while (n > earliest && envelope[n - 1]! >= limit) n--;
  const [below, above] = [envelope[n - 1]!, envelope[n]!];
  const step = below < limit ? (above - limit) / (above - below) : 0;
  return Math.max(0, from + (n - step) / OVERSAMPLING);
}
