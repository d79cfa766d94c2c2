/** A local mean over so many bins to either side: 20 ms, longer than the period of most trains. */
const REACH = 80;
/** One strong echo must not make a pattern by itself: so many times the mean is as much as counts. */
const MOST = 4;
/** A decay is followed as far as its local mean lies so far above the end's. */
const ABOVE_NOISE = 4;

/**
 * Takes the decay out of a row of energies: each re the mean around it, less one.
 *
 * @param from - first bin used
 * @returns bins from `from` to `to`, where the noise takes over
 */
export function evenedOut(energy: Float64Array, from: number): { evened: Float64Array; to: number } {
  const sums = new Float64Array(energy.length + 1);
  for (let n = 0; n < energy.length; n++) sums[n + 1] = sums[n]! + energy[n]!;
  const meanAround = (n: number): number => {
    const [a, b] = [Math.max(from, n - REACH), Math.min(energy.length, n + REACH + 1)];
    return (sums[b]! - sums[a]!) / (b - a);
  };
  const end = Math.max(from, energy.length - 2 * REACH);
  const noise = (sums[energy.length]! - sums[end]!) / (energy.length - end);
  let to = from;
  while (to < energy.length && meanAround(to) > ABOVE_NOISE * noise) to++;
  const evened = new Float64Array(to - from);
  let mean = 0;
  for (let n = from; n < to; n++) mean += evened[n - from] = Math.min(MOST, energy[n]! / meanAround(n));
  mean /= Math.max(1, evened.length);
  return { evened: evened.map((value) => value - mean), to };
}
