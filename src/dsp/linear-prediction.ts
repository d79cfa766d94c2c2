/** A tiny share of the signal's power on the diagonal: a pure tone leaves the equations without a single answer. */
const RIDGE = 1e-9;

/**
 * Finds the coefficients that predict each sample of a stretch best from those before it.
 *
 * @param samples - holds the stretch
 * @param from - first sample of the stretch
 * @param count - samples in it, more than twice the order
 * @param order - how many earlier samples a prediction uses
 * @returns shape `[order]`: sample `n` is predicted as the sum of `coefficients[i] * samples[n - 1 - i]`; zeros for silence
 * @remarks Source: the covariance method, least squares without a window: J. Makhoul, Proc. IEEE 63 (1975), from memory.
 */
export function predictor(samples: ArrayLike<number>, from: number, count: number, order: number): Float64Array {
  const products = Array.from({ length: order }, () => new Float64Array(order));
  const target = new Float64Array(order);
  for (let i = 0; i < order; i++) {
    target[i] = product(samples, from, count, order, 0, i + 1);
    for (let j = 0; j <= i; j++) products[i]![j] = product(samples, from, count, order, i + 1, j + 1);
  }
  let power = 0;
  for (let i = 0; i < order; i++) power += products[i]![i]! / order;
  if (!(power > 0)) return target.fill(0);
  for (let i = 0; i < order; i++) products[i]![i]! += RIDGE * power;
  return solve(products, target);
}

/** Sum over the stretch of the signal, delayed by `a`, times itself, delayed by `b`. */
function product(samples: ArrayLike<number>, from: number, count: number, order: number, a: number, b: number): number {
  let sum = 0;
  for (let n = from + order; n < from + count; n++) sum += samples[n - a]! * samples[n - b]!;
  return sum;
}

/** Solves symmetric positive equations by Cholesky's method; `matrix` (its lower half) and `target` are used up. */
function solve(matrix: Float64Array[], target: Float64Array): Float64Array {
  const order = target.length;
  for (let i = 0; i < order; i++) {
    const row = matrix[i]!;
    for (let j = 0; j <= i; j++) {
      const other = matrix[j]!;
      let rest = row[j]!;
      for (let k = 0; k < j; k++) rest -= row[k]! * other[k]!;
      row[j] = i === j ? Math.sqrt(Math.max(rest, Number.MIN_VALUE)) : rest / other[j]!;
    }
    for (let k = 0; k < i; k++) target[i]! -= row[k]! * target[k]!;
    target[i]! /= row[i]!;
  }
  for (let i = order - 1; i >= 0; i--) {
    for (let k = i + 1; k < order; k++) target[i]! -= matrix[k]![i]! * target[k]!;
    target[i]! /= matrix[i]![i]!;
  }
  return target;
}

/**
 * Goes on with a signal from one place as its predictor has it.
 *
 * @param until - index of the first sample that is not known
 * @returns shape `[count]`, the samples from `until` on
 */
export function extrapolate(
  samples: ArrayLike<number>,
  until: number,
  coefficients: Float64Array,
  count: number,
): Float64Array {
  const order = coefficients.length;
  const continued = new Float64Array(order + count);
  for (let i = 0; i < order; i++) continued[i] = samples[until - order + i]!;
  for (let n = order; n < continued.length; n++) {
    for (let i = 0; i < order; i++) continued[n]! += coefficients[i]! * continued[n - 1 - i]!;
  }
  return continued.subarray(order);
}
