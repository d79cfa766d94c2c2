import { soundingRuns } from "../sounding-runs.js";
import { windowedSinc } from "../windowed-sinc.js";

/** Half the filter between the two sample rates, in samples: 100 dB outside 0.45 to 0.55 of the sample rate. */
const REACH = 64;
/** One side of the filter; the other is the same. */
const halfBand = Float64Array.from({ length: REACH }, (_, k) => windowedSinc(k + 0.5, REACH, 10.06));

/** A memoryless curve: output = input + second input^2 + third input^3, full scale 1. */
export interface Distortion {
  readonly second: number;
  readonly third: number;
}

/**
 * Gives the amplitudes of the harmonics that the curve makes of a sine.
 *
 * @param distortion - coefficients; undefined for none
 * @param amplitude - peak of the sine, full scale 1
 * @returns peak amplitudes; the constant part is left out
 * @example harmonicLevels({ second: 0.02, third: 0 }, 0.5) // { fundamental: 0.5, second: 0.0025, third: 0 }
 */
export function harmonicLevels(
  distortion: Distortion | undefined,
  amplitude: number,
): { fundamental: number; second: number; third: number } {
  const { second, third } = distortion ?? { second: 0, third: 0 };
  return {
    fundamental: Math.abs(amplitude + 0.75 * third * amplitude ** 3),
    second: Math.abs(second * amplitude ** 2) / 2,
    third: Math.abs(third * amplitude ** 3) / 4,
  };
}

/**
 * Bends a signal by a memoryless curve, without the images that sampling would add.
 *
 * The curve works at twice the sample rate: a cube's highest frequencies then fold to above half the sample rate,
 * where the filter on the way back takes them. So a harmonic beyond half the sample rate is missing, as it should be,
 * instead of coming back at a frequency where it does not belong.
 *
 * @param samples - shape `[n]`, full scale 1, nothing above 0.45 of the sample rate
 * @param distortion - coefficients
 * @returns shape `[n]`; where the input is silent for longer than the filters, exactly silent
 */
export function distort(samples: Float64Array, distortion: Distortion): Float64Array {
  const { second, third } = distortion;
  const output = samples.slice();
  if (second === 0 && third === 0) return output;
  for (const [from, to] of soundingRuns(samples, 4 * REACH)) {
    const run = new Float64Array(to - from + 4 * REACH);
    run.set(samples.subarray(from, to), 2 * REACH);
    // At the odd places of the doubled rate, between the samples; the even places are the samples themselves.
    const between = midpoints(run);
    for (let n = 0; n < run.length; n++) {
      between[n] = bend(between[n]!, second, third);
      run[n] = bend(run[n]!, second, third);
    }
    const back = midpoints(between);
    const offset = from - 2 * REACH;
    const last = Math.min(run.length, samples.length - offset);
    for (let n = Math.max(1, -offset); n < last; n++) output[offset + n]! += 0.5 * (run[n]! + back[n - 1]!);
  }
  return output;
}

function bend(x: number, second: number, third: number): number {
  return x * x * (second + third * x);
}

/** Element `n` is the signal half way between the samples `n` and `n + 1`; silence before and after. */
function midpoints(samples: Float64Array): Float64Array {
  const padded = new Float64Array(samples.length + 2 * REACH);
  padded.set(samples, REACH);
  const between = new Float64Array(samples.length);
  for (let n = 0; n < between.length; n++) {
    let sum = 0;
    for (let k = 0, before = n + REACH, after = before + 1; k < REACH; k++, before--, after++) {
      sum += (padded[before]! + padded[after]!) * halfBand[k]!;
    }
    between[n] = sum;
  }
  return between;
}
