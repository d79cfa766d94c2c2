/** Of the filter to either side, in samples of the new rate. */
const REACH = 6;

const known = new Map<number, Float64Array>();

/** The low-pass for a factor, kept for the next time. */
function tapsFor(factor: number): Float64Array {
  const kept = known.get(factor);
  if (kept) return kept;
  const half = REACH * factor;
  const taps = new Float64Array(2 * half + 1);
  let sum = 0;
  for (let n = -half; n <= half; n++) {
    const x = (0.9 * n) / factor;
    const sinc = n === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
    taps[n + half] = sinc * (0.5 + 0.5 * Math.cos((Math.PI * n) / (half + 1)));
    sum += taps[n + half]!;
  }
  for (let n = 0; n < taps.length; n++) taps[n]! /= sum;
  known.set(factor, taps);
  return taps;
}

/**
 * Lowers the sample rate by a whole factor after a windowed-sinc low-pass (flat to 0.35 of the new rate).
 *
 * @param samples - shape `[n]`
 * @param factor - whole, at least 1
 * @returns shape `[ceil(n / factor)]`; sample `m` stands at `m * factor`, without delay
 */
export function decimate(samples: ArrayLike<number>, factor: number): Float64Array {
  const count = Math.ceil(samples.length / factor);
  const half = REACH * factor;
  const taps = tapsFor(factor);
  const source = samples instanceof Float64Array ? samples : new Float64Array(samples);
  const lowered = new Float64Array(count);
  for (let m = 0; m < count; m++) {
    const middle = m * factor;
    let value = source[middle]! * taps[half]!;
    if (middle >= half && middle + half < source.length) {
      for (let n = 1; n <= half; n++) value += (source[middle - n]! + source[middle + n]!) * taps[half + n]!;
    } else {
      for (let n = 1; n <= half; n++) {
        value += ((source[middle - n] ?? 0) + (source[middle + n] ?? 0)) * taps[half + n]!;
      }
    }
    lowered[m] = value;
  }
  return lowered;
}
