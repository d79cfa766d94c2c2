/**
 * Moves places apart until neighbours are at least `gap` from each other, keeping their order and staying in range.
 *
 * @param wanted - where each would stand if it were alone, within `range`
 * @returns places in the order of `wanted`; closer than `gap` only where the range cannot hold them
 * @example spread([0, 0], 2, [0, 10]) // [0, 2]
 */
export function spread(wanted: readonly number[], gap: number, range: readonly [number, number]): number[] {
  const order = wanted.map((_, index) => index).sort((a, b) => wanted[a]! - wanted[b]! || a - b);
  const places = [...wanted];
  let lowest = range[0];
  for (const index of order) {
    places[index] = Math.max(places[index]!, lowest);
    lowest = places[index] + gap;
  }
  let highest = range[1];
  for (const index of order.toReversed()) {
    places[index] = Math.min(places[index]!, highest);
    highest = places[index] - gap;
  }
  return places;
}
