import { describe, expect, it } from "vitest";
import { bandsOverPositions } from "../../../src/comparison/positions/bands-over-positions.js";
import { decayOverPositions } from "../../../src/comparison/positions/decay-over-positions.js";
import { meanAndSpread } from "../../../src/comparison/positions/mean-and-spread.js";
import type { Place } from "../../../src/comparison/positions/places.js";
import type { BandMetrics } from "../../../src/model.js";
import { knownMeasurement } from "../known-measurement.js";

/** Places metres apart, each with a left and a right side of which every band has the same. */
function placesWith(sides: readonly (readonly Partial<BandMetrics>[])[], kind: "near" | "room" = "room"): Place[] {
  return sides.map((channels, n) => ({
    position: { id: `p${n}`, kind },
    channels: channels.map((parts) => knownMeasurement({ bands: () => parts })),
  }));
}

const level = (levelDb: number | null, levelUncertaintyDb: number | null = 0.2) => ({ levelDb, levelUncertaintyDb });

it("a mean over values has their spread, and a single one none", () => {
  expect(meanAndSpread([1, 3, 5])).toEqual({ mean: 3, spread: 2 });
  expect(meanAndSpread([7])).toBeNull();
});

describe("levels over positions", () => {
  it("are energy means of pairs, with the standard deviation between places", () => {
    const places = placesWith([
      [level(0), level(0)],
      [level(3), level(3)],
      [level(6), level(6)],
    ]);
    const [band] = bandsOverPositions(places);
    expect(band!.levelDb).toBeCloseTo(10 * Math.log10((1 + 10 ** 0.3 + 10 ** 0.6) / 3), 12);
    expect(band!.spreadDb).toBeCloseTo(3, 12);
    // Weights by power, 0.2 / sqrt 2 each; 3 / sqrt 3 from the room.
    const powers = [1, 10 ** 0.3, 10 ** 0.6];
    const own = ((0.2 / Math.SQRT2) * Math.hypot(...powers)) / (powers[0]! + powers[1]! + powers[2]!);
    expect(band!.roomUncertaintyDb).toBeCloseTo(Math.hypot(own, Math.sqrt(3)), 12);
  });

  it("that are the same everywhere have no spread, and the uncertainty of their mean", () => {
    const [band] = bandsOverPositions(placesWith([[level(2)], [level(2)], [level(2)], [level(2)]]));
    expect(band!.levelDb).toBeCloseTo(2, 12);
    expect(band!.spreadDb).toBeCloseTo(0, 12);
    expect(band!.roomUncertaintyDb).toBeCloseTo(0.1, 12);
  });

  it("within a head's reach are one place, and their number makes the room no better known", () => {
    const [band] = bandsOverPositions(placesWith([[level(0)], [level(2)], [level(4)]], "near"));
    expect(band!.roomUncertaintyDb).toBeGreaterThan(band!.spreadDb!);
  });

  it("are not stated where one of them, or its uncertainty, is not known", () => {
    const [missing] = bandsOverPositions(placesWith([[level(0)], [level(null)]]));
    expect(missing).toMatchObject({ levelDb: null, spreadDb: null, roomUncertaintyDb: null });
    const [unsure] = bandsOverPositions(placesWith([[level(0)], [level(2, null)]]));
    expect(unsure!.spreadDb).toBeCloseTo(Math.SQRT2, 12);
    expect(unsure!.roomUncertaintyDb).toBeNull();
  });
});

describe("decay times over positions", () => {
  const t30 = (t30S: number, decayUncertaintyS: number | null = 0.006) => ({ t30S, decayUncertaintyS });
  const at1k = (places: readonly Place[]) => decayOverPositions(places).find(({ nominalHz }) => nominalHz === 1000)!;

  it("are arithmetic means over positions and channels, spread between positions", () => {
    const found = at1k(
      placesWith([
        [t30(0.2), t30(0.3)],
        [t30(0.3), t30(0.4)],
      ]),
    );
    expect(found.timeS).toBeCloseTo(0.3, 12);
    expect(found.spreadS).toBeCloseTo(0.1 / Math.SQRT2, 12);
  });

  it("of six places are known in the room as ISO 3382-2 says, and no better than they were measured", () => {
    const exact = placesWith(Array.from({ length: 6 }, () => [t30(0.3, 0)]));
    // 0.165 s * sqrt(1.152 / 1278), to half a microsecond; from memory, see the standard's own test.
    expect(Math.abs(at1k(exact).roomUncertaintyS! - 0.004954)).toBeLessThan(0.5e-6);
    const measured = placesWith(Array.from({ length: 6 }, () => [t30(0.3), t30(0.3)]));
    expect(at1k(measured).roomUncertaintyS).toBeCloseTo(
      Math.hypot(at1k(exact).roomUncertaintyS!, 0.006 / Math.sqrt(12)),
      12,
    );
  });

  it("take T20's deviation when one of them could be followed over 20 dB only", () => {
    const mixed = placesWith([
      ...Array.from({ length: 5 }, () => [t30(0.3, 0)]),
      [{ t20S: 0.3, decayUncertaintyS: 0 }],
    ]);
    expect(Math.abs(at1k(mixed).roomUncertaintyS! - 0.008056)).toBeLessThan(0.5e-6);
  });

  it("within a head's reach are one place of the room, however many", () => {
    const near = at1k(
      placesWith(
        Array.from({ length: 4 }, () => [t30(0.3, 0)]),
        "near",
      ),
    );
    const room = at1k(placesWith(Array.from({ length: 4 }, () => [t30(0.3, 0)])));
    expect(near.roomUncertaintyS! / room.roomUncertaintyS!).toBeCloseTo(2, 12);
  });

  it("are not stated from fewer than two places", () => {
    expect(at1k(placesWith([[t30(0.3)], [{}]]))).toMatchObject({ timeS: null, spreadS: null, roomUncertaintyS: null });
    expect(at1k(placesWith([[t30(0.3)], [t30(0.3, null)]])).roomUncertaintyS).toBeNull();
  });
});
