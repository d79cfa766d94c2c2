import { windowedSinc } from "../windowed-sinc.js";

/** Half the filter between the two sample rates, in samples: 100 dB outside 0.45 to 0.55 of the sample rate. */
const REACH = 64;
const halfBand = Float64Array.from({ length: 2 * REACH }, (_, j) => windowedSinc(REACH - 0.5 - j, REACH, 10.06));

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
export function distort(samples: ArrayLike<number>, distortion: Distortion): Float64Array {
  const { second, third } = distortion;
  const output = Float64Array.from(samples);
  if (second === 0 && third === 0) return output;
  const bend = (x: number): number => x * x * (second + third * x);
  for (const [from, to] of soundingRuns(samples, 4 * REACH)) {
    const first = Math.max(0, from - 2 * REACH);
    const last = Math.min(samples.length, to + 2 * REACH);
    // At the odd places between samples, by the half-band filter; the even places are the samples themselves.
    const between = new Float64Array(last - first);
    for (let n = first; n < last; n++) {
      let sum = 0;
      const begin = Math.max(0, n - REACH + 1);
      const end = Math.min(samples.length, n + REACH + 1);
      for (let m = begin; m < end; m++) sum += samples[m]! * halfBand[m - n + REACH - 1]!;
      between[n - first] = bend(sum);
    }
    for (let n = first; n < last; n++) {
      let sum = 0;
      const begin = Math.max(first, n - REACH);
      const end = Math.min(last, n + REACH);
      for (let m = begin; m < end; m++) sum += between[m - first]! * halfBand[m - n + REACH]!;
      output[n]! += 0.5 * (bend(samples[n]!) + sum);
    }
  }
  return output;
}

/** Stretches with sound in them, `[from, to)`, apart by more than `gap` samples of exact silence. */
export function soundingRuns(samples: ArrayLike<number>, gap: number): [number, number][] {
  const runs: [number, number][] = [];
  for (let n = 0; n < samples.length; n++) {
    if (samples[n] === 0) continue;
    const run = runs.at(-1);
    if (run && n - run[1] <= gap) run[1] = n + 1;
    else runs.push([n, n + 1]);
  }
  return runs;
}
