import { describe, expect, it } from "vitest";

import { predictModes, type RoomSize } from "../../src/geometry/room-modes.js";
import { schroederFrequency } from "../../src/standards/schroeder-frequency.js";
import { referenceTable } from "../standards/reference-table.js";

describe("the modes of a rigid shoebox", () => {
  const rows = referenceTable("room-modes-example");

  it.skipIf(rows === null)(
    "are those of the reference table, each with its kind (not run where that is absent)",
    () => {
      // Computed there, by the formula, for 7 x 5 x 3 m and 343 m/s up to 120 Hz; written to two decimals.
      const table = rows!.map((row) => ({
        hz: Number(row["f_hz"]),
        order: [row["nx"], row["ny"], row["nz"]].map(Number),
        kind: row["type"],
      }));
      const modes = predictModes([7, 5, 3], 343, 120);
      expect(modes.map(({ order, kind }) => ({ order, kind }))).toEqual(
        table.map(({ order, kind }) => ({ order, kind })),
      );
      // Half the last printed digit.
      for (const [k, { hz }] of table.entries())
        expect(Math.abs(modes[k]!.frequencyHz - hz)).toBeLessThan(0.005 + 1e-9);
    },
  );

  it("are those of the handbook's worked room, 16 x 12 x 8 ft with 1130 ft/s", () => {
    // G. Ballou (ed.), Handbook for Sound Engineers, table 6-4: the axial modes, to two decimals.
    const published = [
      { axis: 0, hz: [35.31, 70.63, 105.94, 141.25] },
      { axis: 1, hz: [47.08, 94.17, 141.25] },
      { axis: 2, hz: [70.63, 141.25] },
    ];
    const axial = predictModes([16, 12, 8], 1130, 142).filter(({ kind }) => kind === "axial");
    for (const { axis, hz } of published) {
      const own = axial.filter(({ order }) => order[axis]! > 0).map(({ frequencyHz }) => frequencyHz);
      expect(own).toHaveLength(hz.length);
      // Half the last printed digit; 70.625 lies on it.
      for (const [k, one] of hz.entries()) expect(Math.abs(own[k]! - one)).toBeLessThanOrEqual(0.005 + 1e-9);
    }
  });

  it("are equally spaced between two walls and at the root of the sum of squares else", () => {
    const speed = 344;
    const modes = predictModes([6.1, 4.6, 2.9], speed, 290);
    const hz = (...order: number[]): number | undefined =>
      modes.find((mode) => mode.order.join() === order.join())?.frequencyHz;
    // Some roundings of eps.
    for (let n = 1; n <= 10; n++) expect(hz(n, 0, 0)).toBeCloseTo((n * speed) / 2 / 6.1, 10);
    expect(hz(1, 1, 0)! ** 2).toBeCloseTo(hz(1, 0, 0)! ** 2 + hz(0, 1, 0)! ** 2, 8);
    expect(hz(2, 3, 1)! ** 2).toBeCloseTo(hz(2, 0, 0)! ** 2 + hz(0, 3, 0)! ** 2 + hz(0, 0, 1)! ** 2, 8);
  });

  it("are all there: as many as the count of points in an eighth of an ellipsoid", () => {
    const [size, speed, untilHz] = [[6.1, 4.6, 2.9] as RoomSize, 344, 290] as const;
    let count = 0;
    for (let p = 0; p < 40; p++) {
      for (let q = 0; q < 40; q++) {
        for (let r = 0; r < 40; r++) {
          const squared = (p / size[0]) ** 2 + (q / size[1]) ** 2 + (r / size[2]) ** 2;
          if (squared > 0 && squared <= ((2 * untilHz) / speed) ** 2) count++;
        }
      }
    }
    expect(predictModes(size, speed, untilHz)).toHaveLength(count);
  });

  it("rise, and each states how far the next is", () => {
    const modes = predictModes([7, 5, 3], 343, 120);
    for (const [k, { frequencyHz, spacingHz }] of modes.entries()) {
      const next = modes[k + 1];
      expect(spacingHz).toBe(next ? next.frequencyHz - frequencyHz : null);
      expect(spacingHz ?? 0).toBeGreaterThanOrEqual(0);
    }
  });

  it("coincide in a cube, and keep one order", () => {
    const modes = predictModes([4, 4, 4], 343, 45);
    expect(modes.map(({ order }) => order)).toEqual([
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ]);
    expect(modes.map(({ spacingHz }) => spacingHz)).toEqual([0, 0, null]);
  });

  it("begin near 31 Hz between floor and ceiling of a room 5.5 m high", () => {
    // Common practice, no source.
    const first = predictModes([9, 7, 5.5], 343, 40).find(({ order }) => order.join() === "0,0,1");
    expect(first!.frequencyHz).toBeCloseTo(31.2, 1);
  });

  it("need a size and a speed above nothing", () => {
    expect(() => predictModes([7, 0, 3], 343, 120)).toThrow(RangeError);
    expect(() => predictModes([7, 5, 3], Number.NaN, 120)).toThrow(RangeError);
  });
});

it("modes overlap threefold from 110 Hz up in 100 m³ with 0.3 s", () => {
  // 2000 sqrt(T / V): 2000 sqrt(0.003) = 109.54. At that frequency so many lie within one bandwidth, 2.2 / T: 4 pi V f² / c³ each hertz.
  const hz = schroederFrequency(0.3, 100);
  expect(hz).toBeCloseTo(109.54, 2);
  const within = ((4 * Math.PI * 100 * hz ** 2) / 343 ** 3) * (2.2 / 0.3);
  // The factor 2000 is rounded: 1.9 times 1000 gives 3 exactly with a bandwidth of 2.2 / T.
  expect(within).toBeGreaterThan(2.5);
  expect(within).toBeLessThan(3.5);
  expect(() => schroederFrequency(0, 100)).toThrow(RangeError);
});
