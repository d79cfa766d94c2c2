/**
 * Chance that a normal error is larger than so many of its standard deviations, either way.
 *
 * @param deviations - 0 or more
 * @returns 0 to 1, to 1.2e-7 of itself
 * @remarks Source: complementary error function by a Chebyshev fit, W. H. Press et al., Numerical Recipes, `erfcc`. From memory;
 *   a test holds it against an independent computation.
 * @example normalTail(1.959964) // 0.05
 */
export function normalTail(deviations: number): number {
  const z = deviations / Math.SQRT2;
  const t = 1 / (1 + 0.5 * z);
  let sum = 0;
  for (const coefficient of FIT) sum = sum * t + coefficient;
  return t * Math.exp(-z * z + sum);
}

/** The highest power first. */
const FIT = [
  0.17087277, -0.82215223, 1.48851587, -1.13520398, 0.27886807, -0.18628806, 0.09678418, 0.37409196, 1.00002368,
  -1.26551223,
] as const;
