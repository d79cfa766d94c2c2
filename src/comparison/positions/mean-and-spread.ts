/**
 * Arithmetic mean and standard deviation of values, with n - 1 in the denominator.
 *
 * @returns null for fewer than two values: one has no spread
 * @example meanAndSpread([1, 3]) // { mean: 2, spread: 1.414 }
 */
export function meanAndSpread(values: readonly number[]): { mean: number; spread: number } | null {
  if (values.length < 2) return null;
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { mean, spread: Math.sqrt(squares / (values.length - 1)) };
}
