/**
 * Fits the values that nowhere rise and lie nearest to given ones, by least squares.
 *
 * @param values - shape `[n]`
 * @returns shape `[n]`
 * @remarks Source: pool adjacent violators, M. Ayer et al., Ann. Math. Statist. 26 (1955), from memory.
 * @example fallingFit([3, 1, 2]) // [3, 1.5, 1.5]
 */
export function fallingFit(values: readonly number[]): number[] {
  const pools: { mean: number; count: number }[] = [];
  for (const value of values) {
    let pool = { mean: value, count: 1 };
    for (let last = pools.at(-1); last && last.mean < pool.mean; last = pools.at(-1)) {
      pools.pop();
      const count = last.count + pool.count;
      pool = { mean: (last.mean * last.count + pool.mean * pool.count) / count, count };
    }
    pools.push(pool);
  }
  return pools.flatMap(({ mean, count }) => new Array<number>(count).fill(mean));
}
