/**
 * Finds the stretches with sound in them.
 *
 * @param samples - shape `[n]`
 * @param gap - stretches are apart by more than so many samples of exact silence
 * @returns first sample and first sample after each stretch, in order
 * @example soundingRuns([0, 1, 0, 1, 0, 0, 0, 1], 2) // [[1, 4], [7, 8]]
 */
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
