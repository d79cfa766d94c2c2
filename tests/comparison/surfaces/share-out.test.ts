import { describe, expect, it } from "vitest";
import { shareOut } from "../../../src/comparison/surfaces/share-out.js";
import { Random } from "../../../src/simulate/random.js";

/** Chances by adding up every way of pairing. */
function byCounting(ratios: readonly Float64Array[]): number[][] {
  const columns = ratios[0]!.length;
  const sums = ratios.map(() => new Array<number>(columns).fill(0));
  let total = 0;
  const pair = (row: number, used: readonly number[], weight: number, chosen: readonly (number | null)[]): void => {
    if (row === ratios.length) {
      total += weight;
      chosen.forEach((column, k) => {
        if (column !== null) sums[k]![column]! += weight;
      });
      return;
    }
    pair(row + 1, used, weight, [...chosen, null]);
    ratios[row]!.forEach((ratio, column) => {
      if (ratio > 0 && !used.includes(column)) pair(row + 1, [...used, column], weight * ratio, [...chosen, column]);
    });
  };
  pair(0, [], 1, []);
  return sums.map((row) => row.map((sum) => sum / total));
}

describe("Sharing reflections out among paths", () => {
  it("is exact where doubts form a chain", () => {
    const ratios = [Float64Array.of(8, 0, 0), Float64Array.of(3, 20, 0), Float64Array.of(0, 1, 5)];
    const exact = byCounting(ratios);
    shareOut(ratios).forEach((row, n) => {
      row.forEach((chance, k) => {
        // Ten rounds carry every message along a chain of three: rounding is left.
        expect(Math.abs(chance - exact[n]![k]!)).toBeLessThan(1e-12);
      });
    });
  });

  it("is right within 0.02 in the mean, and 0.15 at worst, where everything may be everything", () => {
    const random = new Random(5);
    const errors: number[] = [];
    for (let n = 0; n < 100; n++) {
      const ratios = Array.from({ length: 4 }, () =>
        Float64Array.from({ length: 3 }, () => 10 ** (3 * random.uniform() - 1)),
      );
      const exact = byCounting(ratios);
      shareOut(ratios).forEach((row, k) => {
        row.forEach((chance, c) => errors.push(Math.abs(chance - exact[k]![c]!)));
      });
    }
    // No derivation: what the approximation was found to err by in twelve doubts at once; names need less than that.
    expect(Math.max(...errors)).toBeLessThan(0.15);
    expect(errors.reduce((a, b) => a + b) / errors.length).toBeLessThan(0.02);
  });
});
