import { decayEnd } from "../../dsp/decay-end.js";
import { forwardReal, inverseReal, transformSize } from "../../dsp/fft.js";

/** An impulse response and where its direct sound arrives. */
export interface RoomImpulse {
  readonly samples: Float64Array;
  readonly sampleRate: number;
  readonly arrivalSample: number;
}

/** What is kept ahead of the arrival: a crossover's or a linear-phase filter's first swing. Faded in. A choice of ours. */
const BEFORE_S = 0.005;
/** Share of the response over which it sinks into silence instead of the recording's noise. A choice of ours. */
const FADED = 0.2;

/**
 * Makes the filter that sounds as a loudspeaker in its room did at the microphone.
 *
 * Cut where the response sinks into its noise, and divided by what is called neutral, so that an earphone that is neutral itself does
 * not add it once more.
 *
 * @param neutral - taps that undo the neutral curve; null where there is none
 * @returns taps that begin 5 ms ahead of the arrival
 */
export function roomFilter(impulse: RoomImpulse, neutral: Float64Array | null): Float64Array {
  const { samples, sampleRate, arrivalSample } = impulse;
  const before = Math.round(BEFORE_S * sampleRate);
  const arrival = Math.round(arrivalSample);
  const end = Math.min(samples.length, arrival + decayEnd(impulse).last);
  const from = Math.max(0, arrival - before);
  const taps = samples.slice(from, end);
  for (let n = 0; n < arrival - from; n++) taps[n]! *= 0.5 - 0.5 * Math.cos((Math.PI * n) / (arrival - from));
  const fadeFrom = Math.floor((1 - FADED) * taps.length);
  for (let n = fadeFrom; n < taps.length; n++) {
    taps[n]! *= 0.5 + 0.5 * Math.cos((Math.PI * (n - fadeFrom)) / (taps.length - fadeFrom));
  }
  return neutral === null ? taps : convolved(taps, neutral);
}

function convolved(a: Float64Array, b: Float64Array): Float64Array {
  const length = a.length + b.length - 1;
  const size = transformSize(Math.max(4, length));
  const [x, y] = [forwardReal(a, size), forwardReal(b, size)];
  const product = new Float64Array(x.length);
  for (let k = 0; k < x.length; k += 2) {
    product[k] = x[k]! * y[k]! - x[k + 1]! * y[k + 1]!;
    product[k + 1] = x[k]! * y[k + 1]! + x[k + 1]! * y[k]!;
  }
  return inverseReal(product).slice(0, length);
}
