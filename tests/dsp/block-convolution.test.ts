import { describe, expect, it } from "vitest";

import { blockPlan, blockSource, filterBlock, filterSpectrum } from "../../src/dsp/block-convolution.js";
import { seededRandom } from "../recording/seeded-random.js";

describe("Filtering piece by piece", () => {
  it("is the convolution of the whole, as by its definition", () => {
    const random = seededRandom(3);
    const noise = (length: number): Float64Array => Float64Array.from({ length }, () => random() - 0.5);
    const taps = noise(37);
    const plan = blockPlan(taps.length);
    const signal = noise(3 * plan.hop + 11);
    const filter = filterSpectrum(taps, plan);
    const source = blockSource(plan);
    const filtered: number[] = [];
    for (let at = 0; at < signal.length; at += plan.hop) {
      const piece = signal.subarray(at, at + plan.hop);
      filtered.push(...filterBlock(source.next(piece), filter, plan).subarray(0, piece.length));
    }
    expect(filtered).toHaveLength(signal.length);
    for (const n of [0, 1, 36, plan.hop - 1, plan.hop, plan.hop + 1, 2 * plan.hop, signal.length - 1]) {
      let direct = 0;
      for (let k = 0; k < taps.length && k <= n; k++) direct += taps[k]! * signal[n - k]!;
      // Some hundred roundings of numbers about one.
      expect(filtered[n]).toBeCloseTo(direct, 12);
    }
  });

  it("refuses a piece longer than its hop and a filter longer than its plan", () => {
    const plan = blockPlan(16);
    expect(() => blockSource(plan).next(new Float64Array(plan.hop + 1))).toThrow(RangeError);
    expect(() => filterSpectrum(new Float64Array(17 + 48), plan)).toThrow(RangeError);
  });
});
