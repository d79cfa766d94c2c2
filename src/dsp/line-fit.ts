/** A straight line y = intercept + slope x. */
export interface Line {
  readonly slope: number;
  readonly intercept: number;
  /** Squared correlation of x and y, 0 to 1; 1 when y does not vary. */
  readonly correlationSquared: number;
}

/**
 * Fits a straight line through equally spaced values by least squares.
 *
 * @param values - shape `[n]`; value `i` stands at `x = i`
 * @param from - first index used
 * @param to - index after the last one used
 * @returns null with fewer than two values
 * @example fitLine([1, 3, 5], 0, 3) // { slope: 2, intercept: 1, correlationSquared: 1 }
 */
export function fitLine(values: ArrayLike<number>, from: number, to: number): Line | null {
  const count = to - from;
  if (count < 2) return null;
  let mean = 0;
  for (let n = from; n < to; n++) mean += values[n]!;
  mean /= count;
  const centre = (from + to - 1) / 2;
  let together = 0;
  let spread = 0;
  for (let n = from; n < to; n++) {
    const y = values[n]! - mean;
    together += (n - centre) * y;
    spread += y * y;
  }
  const width = (count * (count * count - 1)) / 12;
  const slope = together / width;
  return {
    slope,
    intercept: mean - slope * centre,
    correlationSquared: spread > 0 ? Math.min(1, (slope * together) / spread) : 1,
  };
}
