import { describe, expect, it } from "vitest";
import { matchDips } from "../../../src/comparison/boundaries/match-dips.js";
import { measuredDips } from "../../../src/comparison/boundaries/measured-dips.js";
import type { Response } from "../../../src/model.js";

const frequencyHz = Array.from({ length: 600 }, (_, k) => 20 * 10 ** (k / 320));
const responseOf = (level: (hz: number) => number): Response => {
  const levelDb = frequencyHz.map(level);
  const nothing = frequencyHz.map(() => null);
  return {
    ...{ frequencyHz, levelDb, toneDb: nothing, directDb: nothing, phaseDeg: nothing },
    ...{ groupDelayS: nothing, uncertaintyDb: nothing, validHz: null },
  };
};
/** Direct sound and one reflection, half as strong, 1.715 m longer: dips at 100 and 300 Hz, 9.5 dB. */
const comb = (hz: number): number =>
  20 * Math.log10(Math.hypot(1 + 0.5 * Math.cos((Math.PI * hz) / 100), 0.5 * Math.sin((Math.PI * hz) / 100)));
const RANGE = [30, 400] as const;

describe("A response with one reflection", () => {
  it("shows its dips with their depth", () => {
    const dips = measuredDips(responseOf(comb), RANGE);
    expect(dips).toHaveLength(2);
    // A step of the grid is 0.7 %.
    expect(Math.abs(dips[0]!.frequencyHz / 100 - 1)).toBeLessThan(0.008);
    expect(Math.abs(dips[1]!.frequencyHz / 300 - 1)).toBeLessThan(0.008);
    // An octave below, at 50 Hz, the two are a quarter wave apart: 1.118 against 0.5 is 7 dB, less a step of the grid.
    expect(Math.abs(dips[0]!.depthDb - 20 * Math.log10(Math.hypot(1, 0.5) / 0.5))).toBeLessThan(0.05);
    // From 200 Hz on: 1.5 against 0.5, 9.54 dB, less what 0.4 % off the bottom leaves of the dip.
    expect(dips[1]!.depthDb).toBeGreaterThan(9);
  });

  it("without one shows none, however it slopes", () => {
    expect(
      measuredDips(
        responseOf((hz) => 10 * Math.log2(hz / 100)),
        RANGE,
      ),
    ).toEqual([]);
  });

  it("is held against the wall that fits, not against one 20 % beside", () => {
    const dips = measuredDips(responseOf(comb), RANGE);
    const expected = [
      { surface: "rear", frequencyHz: 80, share: 0.01, mostDb: 10 },
      { surface: "front", frequencyHz: 101, share: 0.01, mostDb: 10 },
    ];
    const [first] = matchDips(dips, expected, RANGE);
    expect(first!.fitting).toEqual([1]);
    // Two spans of 2 x 2 x hypot(0.01, 0.0293) of ln(400 / 30).
    expect(first!.byChance).toBeCloseTo((2 * 2 * 2 * Math.hypot(0.01, 2 ** (1 / 24) - 1)) / Math.log(400 / 30), 10);
  });

  it("is no work of a reflection that is too weak for so deep a dip", () => {
    const dips = measuredDips(
      responseOf((hz) => 2 * comb(hz)),
      RANGE,
    );
    const weak = [{ surface: "rear", frequencyHz: 100, share: 0.01, mostDb: 6 }];
    expect(matchDips(dips, weak, RANGE).map(({ fitting }) => fitting.length)).toEqual([0, 0]);
  });
});
