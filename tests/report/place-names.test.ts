import { describe, expect, it } from "vitest";

import { placeNames, type Wanted } from "../../src/report/figures/place-names.js";

const rows = [3, 8, 13];
/** Widths of the axis; a letter is one unit wide. */
const range = [0, 60] as const;

function wanted(...places: number[]): Wanted[] {
  return places.map((x) => ({ text: "0.9 ms, 0.32 m", x, y: -10 }));
}

/** Where a name's text lies. */
function ends({ text, x, side }: ReturnType<typeof placeNames>[number]): readonly [number, number] {
  return side === "right" ? [x, x + text.length] : [x - text.length, x];
}

describe("names of reflections above a curve", () => {
  it("stand in steps where reflections follow each other closely", () => {
    const names = placeNames(wanted(4, 8, 12), rows, range, 1, "wide");
    expect(names.map(({ x, rowY }) => [x, rowY])).toEqual([
      [4, 13],
      [8, 8],
      [12, 3],
    ]);
  });

  it("leave out the least important where there is no room for all", () => {
    const names = placeNames(wanted(20, 21, 22, 23, 24, 25, 26), rows, range, 1, "narrow");
    expect(names.length).toBeGreaterThanOrEqual(3);
    expect(names.map(({ x }) => x)).toEqual(expect.arrayContaining([20, 21, 22]));
    expect(names.map(({ x }) => x)).not.toContain(26);
  });

  it("never lie on each other, on another's hairline, or outside the plot", () => {
    for (let seed = 1; seed <= 200; seed++) {
      const places = Array.from({ length: 6 }, (_, index) => (seed * 7919 * (index + 1) * (index + 3)) % 59);
      const names = placeNames(wanted(...places), rows, range, 1, "wide");
      for (const one of names) {
        const [from, to] = ends(one);
        expect(from >= range[0] && to <= range[1]).toBe(true);
        for (const other of names) {
          if (other === one) continue;
          const [otherFrom, otherTo] = ends(other);
          if (other.rowY === one.rowY) expect(otherTo <= from || otherFrom >= to).toBe(true);
          if (other.rowY > one.rowY) expect(other.x <= from || other.x >= to).toBe(true);
        }
      }
    }
  });
});
