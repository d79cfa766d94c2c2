/** Largest magnitude, from `from` up to but without `to`; 0 for none. */
export function peakOf(values: ArrayLike<number>, from = 0, to = values.length): number {
  let peak = 0;
  for (let n = from; n < to; n++) peak = Math.max(peak, Math.abs(values[n]!));
  return peak;
}
