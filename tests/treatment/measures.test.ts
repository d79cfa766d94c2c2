import { describe, expect, it } from "vitest";
import type { Finding, Measure, MeasuredMode, Results } from "../../src/model.js";
import { finding } from "../../src/schema/finding.js";
import { diffuseAbsorption, layerImpedance } from "../../src/standards/absorbers/layer-absorption.js";
import { miki } from "../../src/standards/absorbers/porous-material.js";
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

describe("The depth of a porous layer", () => {
  it("takes the share it is stated for, and a centimetre less takes less", () => {
    for (const hz of [60, 125, 250]) {
      for (const { depthM, resistivity, absorption } of one("porous", measures(ringing(hz))).depths) {
        if (depthM === null) continue;
        const taken = (deep: number): number => diffuseAbsorption(layerImpedance(miki(hz, resistivity), hz, deep));
        // Found to a tenth of a millimetre; absorption rises by some percent a centimetre.
        expect(taken(depthM)).toBeGreaterThanOrEqual(absorption);
        expect(taken(depthM)).toBeLessThan(absorption + 0.005);
        expect(taken(depthM - 0.01)).toBeLessThan(absorption);
      }
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
    // Without end it would be its own impedance that decides.
    expect(diffuseAbsorption(miki(40, 20_000).impedance)).toBeLessThan(0.8);
  });
});

describe("Ringing", () => {
  it("asks for a tuned absorber where no layer for a room takes most of it, and for none above", () => {
    expect(measures(ringing(40)).map(({ kind }) => kind)).toEqual(["tuned", "porous", "diffusion"]);
    expect(measures(ringing(250)).map(({ kind }) => kind)).toEqual(["porous", "diffusion"]);
  });

  it("is met at its frequency by the sheet that is stated: 60 / sqrt(m d)", () => {
    for (const { cavityM, massKgPerM2 } of one("tuned", measures(ringing(54))).membranes) {
      expect(60 / Math.sqrt(cavityM * massKgPerM2)).toBeCloseTo(54, 9);
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
    const quiet = quietResults();
    const at = (x: number, y: number, z: number): [number, number, number] => [x, y, z];
    const change: Partial<Results> = {
      session: { ...quiet.session, positions: [{ id: "mix", kind: "mix", xyzM: at(3, 2, 1.2) }] },
      measurements: quiet.measurements.map((m) => ({
        ...m,
        reflections: [
          {
            ...{ delayS: 0.001, pathDifferenceM: 0.34, levelDb: -5, levelUncertaintyDb: 0.2 },
            polarity: 1,
            firstNotchHz: 500,
            close: false,
          },
        ],
      })),
      surfaces: {
        placementUncertaintyM: 0.02,
        panels: [],
        measurements: [
          {
            ...{ id: "mains-L@mix", reason: null, dips: null },
            paths: [
              {
                ...{
                  surface: "desk",
                  detourM: 0.34,
                  delayS: 0.001,
                  detourUncertaintyM: 0.02,
                  azimuthDeg: 0,
                  elevationDeg: -30,
                },
                ...{ pointM: at(2.4, 2, 0.4), blockedBy: [] },
              },
            ],
            origins: [{ reflection: 0, surfaces: ["desk"], confidence: 0.95, offM: 0 }],
          },
        ],
      },
    };
    const found = measures(early, change);
    // A metre away (3, 4, 5): atan(0.5) = 26.57°, halved.
    expect(one("turn", found)).toMatchObject({ surface: "desk" });
    expect(one("turn", found).angleDeg).toBeCloseTo(13.28, 2);
    expect(one("diffusion", found)).toMatchObject({ possible: false });
    expect(one("diffusion", found).distanceM).toBeCloseTo(1, 9);
  });
});

describe("Results about which there is nothing to say", () => {
  it("need nothing", () => {
    expect(treatRoom(told({})).problems).toEqual([]);
  });
});
