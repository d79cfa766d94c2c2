/** Sum of squares, from `from` up to but without `to`. */
export function energyOf(values: ArrayLike<number>, from = 0, to = values.length): number {
  let energy = 0;
  for (let n = from; n < to; n++) energy += values[n]! * values[n]!;
  return energy;
}
