import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Finding, Measure, MeasuredMode, Results } from "../../src/model.js";
import { porousWords } from "../../src/report/sections/treatment/absorber-words.js";
import { finding } from "../../src/schema/finding.js";
import { treatRoom } from "../../src/treatment/treat-room.js";
import { quietResults } from "../findings/quiet-results.js";
import { told } from "./known-results.js";

const mend = (parts: Partial<Finding>): Finding =>
  finding({ code: "", severity: "warning", topic: "mend", message: "", monitors: ["mains"], ...parts });
const measures = (trouble: Finding, change: Partial<Results> = {}): Measure[] =>
  treatRoom({ ...quietResults(), ...change, findings: [trouble] }).problems[0]!.measures;
const one = <Kind extends Measure["kind"]>(kind: Kind, all: readonly Measure[]): Extract<Measure, { kind: Kind }> =>
  all.find((measure) => measure.kind === kind) as Extract<Measure, { kind: Kind }>;
const ringing = (bandHz: number): Finding =>
  mend({ code: "mode-rings", bandHz, rangeHz: [bandHz, bandHz], value: 1, limit: 0.5 });

/** By `tests/scripts/absorber-reference.py depths`: the least depths, and those for 0.002 less and more. */
const reference = JSON.parse(readFileSync(new URL("depth-reference.json", import.meta.url), "utf8")) as readonly {
  readonly frequencyHz: number;
  readonly resistivity: number;
  readonly absorption: number;
  readonly model: "delanyBazley" | "miki";
  readonly depthM: number | null;
  readonly lessM: number | null;
  readonly moreM: number | null;
  readonly straightOn: number | null;
}[];

describe("The depth of a porous layer", () => {
  it("is what transfer matrices and an integral over angles give, by another program", () => {
    expect(reference).toHaveLength(30);
    for (const row of reference) {
      const { depths } = one("porous", measures(ringing(row.frequencyHz)));
      const own = depths.find((d) => d.resistivity === row.resistivity && d.absorption === row.absorption)!;
      expect(own.tested).toBe(row.model === "delanyBazley");
      if (row.depthM === null) {
        expect(own.depthM).toBe(null);
        continue;
      }
      // Found to a tenth of a millimetre; Delany and Bazley's constants are printed to three digits in either system of units,
      // which is up to 0.002 of the absorption: the depths for so much less and so much more.
      const exact = row.model === "miki";
      expect(own.depthM!).toBeGreaterThan((exact ? row.depthM : row.lessM!) - 1.1e-4);
      expect(own.depthM!).toBeLessThan((exact ? row.depthM : (row.moreM ?? 2)) + 1.1e-4);
      // Straight on, the depth's own uncertainty times twice the slope of the mean over angles, and the digits again.
      expect(Math.abs(own.straightOn! - row.straightOn!)).toBeLessThan(0.01);
    }
  });

  it("falls as the frequency rises", () => {
    const depths = [60, 125, 250, 500].map((hz) => one("porous", measures(ringing(hz))).depths[0]!.depthM!);
    expect(depths.toSorted((a, b) => b - a)).toEqual(depths);
  });

  it("is not stated where a dense layer turns away what it should take, however deep", () => {
    const { depths } = one("porous", measures(ringing(40)));
    const dense = depths.find(({ resistivity, absorption }) => resistivity === 20_000 && absorption === 0.8)!;
    expect(dense).toMatchObject({ depthM: null, withHalfAir: null, straightOn: null, tested: false });
    // Without end it would be its own impedance that decides: Miki's 5.5 and 8.43 times (1000 f / resistivity)^-0.632, x = 2.
    const [re, im] = [1 + 5.5 * 2 ** -0.632, -8.43 * 2 ** -0.632];
    // The share taken at an angle is 4 r c / ((r c + 1)² + (x c)²), summed here in steps of 0.1°.
    let taken = 0;
    for (let deg = 0.05; deg < 90; deg += 0.1) {
      const [cos, sin2] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 90)];
      taken += ((4 * re * cos) / ((re * cos + 1) ** 2 + (im * cos) ** 2)) * sin2 * ((0.1 * Math.PI) / 180);
    }
    expect(taken).toBeLessThan(0.8);
  });
});

describe("Ringing", () => {
  it("asks for a tuned absorber where no layer for a room takes most of it, and for none above", () => {
    expect(measures(ringing(40)).map(({ kind }) => kind)).toEqual(["tuned", "porous", "diffusion"]);
    expect(measures(ringing(250)).map(({ kind }) => kind)).toEqual(["porous", "diffusion"]);
  });

  it("is met at its frequency by the sheet that is stated: c / 2π √(ρ / (m d)), at 20 °C", () => {
    const { membranes } = one("tuned", measures(ringing(54)));
    expect(membranes.map(({ cavityM }) => cavityM)).toEqual([0.1, 0.2, 0.3]);
    for (const { cavityM, massKgPerM2 } of membranes) {
      // 1.204 kg/m³ and 343.2 m/s give 59.94 / √(m d); the page's rounded 60 is 0.1 % off.
      const hz = (343.2 / (2 * Math.PI)) * Math.sqrt(1.204 / (massKgPerM2 * cavityM));
      expect(Math.abs(hz / 54 - 1)).toBeLessThan(0.0012);
    }
  });

  it("is not scattered: a structure would have to be metres deep", () => {
    const scatter = one("diffusion", measures(ringing(54)));
    expect(scatter.possible).toBe(false);
    expect(scatter.depthM).toBeCloseTo(343.2 / 54 / 4, 9);
  });

  it("is softer nearer to the middle of the room's first mode between front and rear wall", () => {
    const quiet = quietResults();
    const mode = {
      ...{
        kind: "mode",
        frequencyHz: 28.6,
        rangeHz: [28, 29],
        frequencyUncertaintyHz: 0.1,
        t60S: 1,
        t60UncertaintyS: 0.05,
      },
      ...{ levelDb: 0, places: [], members: [], unheardS: 0.9, bumps: [], audible: true, predicted: [0] },
    } as MeasuredMode;
    const change = (xM: number, order: [number, number, number]): Partial<Results> => ({
      session: {
        ...quiet.session,
        room: { lengthM: 6, widthM: 5, heightM: 3 },
        positions: [{ id: "mix", kind: "mix", xyzM: [xM, 2.5, 1.2] }],
      },
      roomModes: {
        measured: [mode],
        predicted: [{ order, kind: "axial", frequencyHz: 28.6, spacingHz: null }],
      } as unknown as NonNullable<Results["roomModes"]>,
    });
    const move = one("move-listener", measures(ringing(28.6), change(2.4, [1, 0, 0])));
    expect(move.byM).toBeCloseTo(0.3, 9);
    // cos(π 2.4 / 6) = cos 72° = 0.309, cos 81° = 0.156: by hand.
    expect(move.nowDb).toBeCloseTo(-10.2, 1);
    expect(move.thenDb).toBeCloseTo(-16.1, 1);
    // Known to 4 cm, 1.2°: cos 70.8° = 0.329 and cos 73.2° = 0.289; cos 79.8° = 0.177 and cos 82.2° = 0.136.
    expect(move.nowRangeDb[0]).toBeCloseTo(-10.8, 1);
    expect(move.nowRangeDb[1]).toBeCloseTo(-9.7, 1);
    expect(move.thenRangeDb[0]).toBeCloseTo(-17.3, 1);
    expect(move.thenRangeDb[1]).toBeCloseTo(-15.0, 1);
    // At the node nothing is won; aside nobody is sent.
    expect(one("move-listener", measures(ringing(28.6), change(3, [1, 0, 0])))).toBeUndefined();
    expect(one("move-listener", measures(ringing(28.6), change(2.4, [0, 1, 0])))).toBeUndefined();
    expect(one("move-listener", measures(ringing(28.6)))).toBeUndefined();
    // As wide as long: the mode may go between the side walls, where the seat's place along the room does nothing.
    const square = change(2.4, [1, 0, 0]);
    square.roomModes!.predicted!.push({ order: [0, 1, 0], kind: "axial", frequencyHz: 28.6, spacingHz: null });
    square.roomModes!.measured[0]!.predicted.push(1);
    expect(one("move-listener", measures(ringing(28.6), square))).toBeUndefined();
  });
});

describe("A room that is live as a whole", () => {
  const live = mend({ code: "too-live", value: 0.6, limit: 0.3 });

  it("lacks the surface that Sabine says: 0.161 V (1/T - 1/T')", () => {
    const { areaM2 } = one("area", measures(live));
    // 0.161 at 20 °C, to three digits.
    expect(Math.abs(areaM2! / (0.161 * 100 * (1 / 0.3 - 1 / 0.6)) - 1)).toBeLessThan(0.004);
  });

  it("lacks nobody knows how much where its size is not stated", () => {
    const session = { ...quietResults().session };
    delete session.room;
    expect(one("area", measures(live, { session })).areaM2).toBe(null);
  });
});

describe("Left and right", () => {
  it("are aligned by the figures measured: the louder side down, the first side later", () => {
    expect(measures(mend({ code: "left-right-level", value: -1.4, uncertainty: 0.2 }))).toEqual([
      { kind: "level", monitor: "mains", channel: "R", byDb: -1.4, uncertaintyDb: 0.2 },
    ]);
    const [late] = measures(mend({ code: "left-right-arrival", value: 200e-6, uncertainty: 4e-6 }));
    expect(late).toMatchObject({ kind: "delay", channel: "R", byS: 200e-6, uncertaintyS: 4e-6 });
    // 343 m/s times 0.2 ms.
    expect((late as { orM: number }).orM).toBeCloseTo(0.0686, 4);
  });
});

describe("A dip", () => {
  it("is no equaliser's where two waves make it, and takes twenty-five times the power at 14 dB", () => {
    const filled = one("equaliser", measures(mend({ code: "phantom-dip", bandHz: 100, value: -14 })));
    expect(filled).toMatchObject({ works: false, boostDb: 14 });
    expect(filled.timesPower).toBeCloseTo(25.1, 1);
    expect(one("equaliser", measures(mend({ code: "dip", bandHz: 100, value: -8 }))).works).toBe(null);
  });
});

type Point = [number, number, number];

/** A reflection after 1 ms that may come by surfaces, each with its chance and where the sound meets it. */
function comingBy(
  by: Readonly<Record<string, readonly [confidence: number, pointM: Point]>>,
  session: Partial<Results["session"]> = {},
): Partial<Results> {
  const quiet = quietResults();
  const reflection = {
    ...{ delayS: 0.001, pathDifferenceM: 0.34, levelDb: -5, levelUncertaintyDb: 0.2 },
    ...{ polarity: 1 as const, firstNotchHz: 500, close: false },
  };
  const path = { detourM: 0.34, delayS: 0.001, detourUncertaintyM: 0.02, azimuthDeg: 0, elevationDeg: -30 };
  const ways = Object.entries(by);
  return {
    session: { ...quiet.session, positions: [{ id: "mix", kind: "mix", xyzM: [3, 2, 1.2] }], ...session },
    measurements: quiet.measurements.map((m) => ({ ...m, reflections: [reflection] })),
    surfaces: {
      placementUncertaintyM: 0.02,
      panels: [],
      measurements: [
        {
          ...{ id: "mains-L@mix", reason: null, dips: null, directBlockedBy: [] },
          paths: ways.map(([surface, [, pointM]]) => ({ ...path, surface, pointM, blockedBy: [] })),
          origins: ways.map(([surface, [confidence]]) => ({ reflection: 0, surfaces: [surface], confidence, offM: 0 })),
        },
      ],
    },
  };
}

describe("A reflection", () => {
  const early = mend({ code: "early-reflection", value: -5, limit: -10, atS: 0.001, channels: ["L"] });

  it("must lose as much as it lies over the limit: 5 dB are 68 %", () => {
    expect(one("porous", measures(early)).neededAbsorption).toBeCloseTo(1 - 10 ** -0.5, 9);
  });

  it("without places stated comes from nobody knows where, and by how much to turn nothing is said", () => {
    expect(one("turn", measures(early))).toMatchObject({ surface: null, angleDeg: null });
    expect(one("diffusion", measures(early))).toMatchObject({ distanceM: null, possible: null });
  });

  it("of a surface that is named passes by when that is turned by half the angle", () => {
    const found = measures(early, comingBy({ desk: [0.95, [2.4, 2, 0.4]] }));
    // A metre away (3, 4, 5): atan(0.5) = 26.57°, halved.
    expect(one("turn", found)).toMatchObject({ surface: "desk", boardToo: true });
    expect(one("turn", found).angleDeg).toBeCloseTo(13.28, 2);
    expect(one("diffusion", found)).toMatchObject({ possible: false });
    expect(one("diffusion", found).distanceM).toBeCloseTo(1, 9);
    expect(one("find-surface", found)).toBeUndefined();
  });

  it("that two walls send equally likely is met at both, each by its own distance, once it is known which it is", () => {
    const found = measures(early, comingBy({ left: [0.499, [2.4, 2, 0.4]], right: [0.499, [3, 3.6, 2.4]] }));
    expect(one("find-surface", found).surfaces).toEqual([
      { surface: "left", confidence: 0.499 },
      { surface: "right", confidence: 0.499 },
    ]);
    // A metre (3, 4, 5) and two.
    const turned = found.filter((measure) => measure.kind === "turn");
    expect(turned.map(({ surface, angleDeg }) => [surface, Math.round(angleDeg! * 100) / 100])).toEqual([
      ["left", 13.28],
      ["right", 7.02],
    ]);
    expect(one("porous", found).surfaces).toEqual(["left", "right"]);
    const scattered = found.filter((measure) => measure.kind === "diffusion");
    expect(scattered.map(({ surface, possible }) => [surface, possible])).toEqual([
      ["left", false],
      ["right", true],
    ]);
  });

  it("of the floor is met by a rug, which takes little, and by nothing that nobody does to a floor", () => {
    const found = measures(early, comingBy({ floor: [0.95, [2.4, 2, 0]] }));
    expect(found.map(({ kind }) => kind)).toEqual(["cover"]);
    expect(one("cover", found)).toMatchObject({ surface: "floor", use: "floor", neededAbsorption: 1 - 10 ** -0.5 });
  });

  it("of a desk that is worked at is met by turning it, with no layer on it; a level panel overhead takes one", () => {
    const level = (z: number): Partial<Results["session"]> => ({
      panels: [{ id: "desk", centreM: [2.4, 2, z], normal: [0, 0, 1], widthM: 1.6, heightM: 0.8 }],
    });
    const low = measures(early, comingBy({ desk: [0.95, [2.4, 2, 0.74]] }, level(0.74)));
    expect(low.map(({ kind }) => kind)).toEqual(["turn", "cover"]);
    expect(one("turn", low).boardToo).toBe(false);
    const high = measures(early, comingBy({ desk: [0.95, [2.4, 2, 2.2]] }, level(2.2)));
    expect(high.map(({ kind }) => kind)).toEqual(["turn", "porous", "diffusion"]);
  });

  it("of floor or ceiling gets a rug for the one and a layer for the other", () => {
    const found = measures(early, comingBy({ floor: [0.499, [2.4, 2, 0]], ceiling: [0.499, [2.4, 2, 2.5]] }));
    expect(found.map(({ kind }) => kind)).toEqual(["find-surface", "turn", "porous", "cover", "diffusion"]);
    expect(one("porous", found).surfaces).toEqual(["ceiling"]);
    expect(one("turn", found).surface).toBe("ceiling");
  });
});

describe("Results about which there is nothing to say", () => {
  it("need nothing", () => {
    expect(treatRoom(told({})).problems).toEqual([]);
  });
});

describe("A dip that each side's own wall makes", () => {
  it("asks for a layer on both walls, which the page names together, as it names walls that are only as likely apart", () => {
    const dips = (surface: string) => ({
      rangeHz: [30, 500] as [number, number],
      predicted: [{ surface, order: 1, frequencyHz: 118, frequencyUncertaintyHz: 2, mostDb: 16 }],
      measured: [
        {
          ...{ frequencyHz: 116, depthDb: 14, otherSide: true, fitting: [0], byChance: 0.2 },
          moves: [{ surface, awayM: -0.25, upM: 0, toHz: 150 }],
        },
      ],
    });
    const measurements = (["left", "right"] as const).map((surface) => ({
      ...{
        id: `mains-${surface === "left" ? "L" : "R"}@mix`,
        reason: null,
        paths: [],
        directBlockedBy: [],
        origins: [],
      },
      dips: dips(surface),
    }));
    const dip = mend({ code: "boundary-dip", bandHz: 116, value: 14, limit: 6, channels: ["L", "R"] });
    const all = measures(dip, { surfaces: { placementUncertaintyM: 0.02, measurements, panels: [] } });
    const layer = one("porous", all);
    expect(layer.surfaces).toEqual(["left", "right"]);
    expect(porousWords(layer)).toMatch(/^Porous layer on the left wall and the right wall:/);
    expect(porousWords({ ...layer, neededAbsorption: 0.5 })).toMatch(
      /^Porous layer on the left wall or the right wall:/,
    );
  });
});
