/** Where an axis begins and ends. */

export interface AxisRange {
  readonly range: readonly [number, number];
  readonly step: number;
}

/**
 * A decibel axis that holds the values, in whole steps.
 *
 * @param spanDb - the least the axis shows and the most, dB; what lies deeper is cut off, for peaks matter more
 */
export function decibelRange(values: Iterable<number | null>, spanDb: readonly [number, number] = [30, 60]): AxisRange {
  let highest = -Infinity;
  let lowest = Infinity;
  for (const value of values) {
    if (value === null) continue;
    highest = Math.max(highest, value);
    lowest = Math.min(lowest, value);
  }
  if (highest < lowest) return { range: [-spanDb[0], 0], step: 10 };
  const top = 5 * Math.ceil((highest + 1) / 5);
  const bottom = Math.max(5 * Math.floor((lowest - 1) / 5), top - spanDb[1]);
  return { range: [Math.min(bottom, top - spanDb[0]), top], step: top - bottom > 25 ? 10 : 5 };
}

/** An axis symmetrical about zero, for differences. */
export function differenceRange(values: Iterable<number | null>): AxisRange {
  let largest = 0;
  for (const value of values) if (value !== null) largest = Math.max(largest, Math.abs(value));
  const edge = Math.min(20, Math.max(5, 5 * Math.ceil(largest / 5)));
  return { range: [-edge, edge], step: edge > 15 ? 10 : edge > 5 ? 5 : 2.5 };
}

/** An axis from zero up, in steps of 1, 2 or 5 times a power of ten. */
export function positiveRange(values: Iterable<number | null>): AxisRange {
  let highest = 0;
  for (const value of values) if (value !== null) highest = Math.max(highest, value);
  if (highest === 0) return { range: [0, 1], step: 0.5 };
  const rough = highest / 4;
  const decade = 10 ** Math.floor(Math.log10(rough));
  const step = decade * ([1, 2, 5, 10].find((factor) => factor * decade >= rough) ?? 10);
  return { range: [0, Number((step * Math.ceil((highest * 1.05) / step)).toPrecision(6))], step };
}
