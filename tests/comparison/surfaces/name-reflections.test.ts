import { describe, expect, it } from "vitest";
import { type NamedReflection, nameReflections } from "../../../src/comparison/surfaces/name-reflections.js";
import { type MirrorPath, mirrorPaths } from "../../../src/geometry/mirror-paths.js";
import type { Point } from "../../../src/geometry/point.js";
import { faces, FACES, panelSurface } from "../../../src/geometry/surfaces.js";
import type { Reflection } from "../../../src/model.js";
import { Random } from "../../../src/simulate/random.js";
import { alike, plainRoom } from "../../simulate/test-rooms.js";
import { heardReflections, moved, pathsIn, someRoom } from "./simulated-rooms.js";

/** Standard deviation of each coordinate of loudspeaker and microphone. */
const PLACEMENT_M = 0.02;
/** From here up a surface is called by name; below it is said to be possible. */
const NAMED = 0.7;

interface Case {
  readonly reflections: Reflection[];
  readonly named: readonly NamedReflection[];
  /** Names of the expected paths, in their order. */
  readonly names: readonly string[];
}

function nameIn(
  room: ReturnType<typeof plainRoom>,
  reflections: Reflection[],
  stated: { source: Point; receiver: Point },
): Case {
  const paths = pathsIn(room, stated.source, stated.receiver).map((path) => ({
    ...path,
    surfaces: path.surfaces.map(({ id }) => id),
  }));
  const volumeM3 = room.sizeM.reduce((a, b) => a * b);
  const doubts = { placementM: PLACEMENT_M, volumeM3, soundSpeedMPerS: room.soundSpeedMPerS };
  return {
    reflections,
    named: nameReflections(reflections, paths, doubts),
    names: paths.map(({ surfaces }) => surfaces.join(" ")),
  };
}

/** Paths whose detour lies within what the peak of two that run into one may be off, 5 cm. */
function trueNames(truth: readonly MirrorPath[], detourM: number): string[] {
  return truth
    .filter((path) => Math.abs(path.detourM - detourM) < 0.05)
    .map(({ surfaces }) => surfaces.map(({ id }) => id).join(" "));
}

describe("In a simulated room whose six first reflections come one by one", () => {
  // Of 40 000 random rooms the one whose first reflections lie furthest, 35 cm of path, from each other and from those by two walls.
  const room = plainRoom([6.4, 5.52, 2.82], 0.35, { rear: alike(0.2), ceiling: alike(0.5) });
  const [source, receiver]: [Point, Point] = [
    [1.06, 1.5, 1.18],
    [3.06, 2.69, 1.39],
  ];
  const reflections = heardReflections(room, source, receiver);
  const truth = pathsIn(room, source, receiver);

  it("all six are named right, and nothing wrongly, for 200 errors of placement of 2 cm", () => {
    for (let seed = 1; seed <= 200; seed++) {
      const random = new Random(seed);
      const stated = {
        source: moved(source, PLACEMENT_M, random),
        receiver: moved(receiver, PLACEMENT_M, random),
      };
      const { named, names } = nameIn(room, reflections, stated);
      const told = named.flatMap(({ reflection, origins }) =>
        origins[0] && origins[0].confidence >= NAMED ? [{ reflection, name: names[origins[0].path]! }] : [],
      );
      for (const face of FACES) {
        const detourM = truth.find(({ surfaces }) => surfaces.length === 1 && surfaces[0]!.id === face)!.detourM;
        const own = told.filter(({ name }) => name === face);
        expect(own, `${face}, seed ${seed}`).toHaveLength(1);
        // The reading of a peak among others: a centimetre and a half.
        expect(Math.abs(reflections[own[0]!.reflection]!.pathDifferenceM - detourM)).toBeLessThan(0.015);
      }
      for (const { reflection, name } of told) {
        expect(trueNames(truth, reflections[reflection]!.pathDifferenceM), `seed ${seed}`).toContain(name);
      }
    }
  });
});

describe("In 150 random rooms with random places", () => {
  const cases = Array.from({ length: 150 }, (_, seed) => {
    const random = new Random(1000 + seed);
    const room = someRoom(random, 0.2, 0.6);
    const [l, w, h] = room.sizeM;
    const within = (from: number, to: number): number => from + (to - from) * random.uniform();
    const source: Point = [l * within(0.15, 0.3), w * within(0.2, 0.35), h * within(0.38, 0.5)];
    const receiver: Point = [l * within(0.4, 0.6), w * within(0.45, 0.55), h * within(0.38, 0.46)];
    const reflections = heardReflections(room, source, receiver);
    const stated = { source: moved(source, PLACEMENT_M, random), receiver: moved(receiver, PLACEMENT_M, random) };
    return { truth: pathsIn(room, source, receiver), ...nameIn(room, reflections, stated) };
  });

  it("what is said with a certainty of p is true about p times in a hundred or more often", () => {
    const bins = new Map<number, { right: number; count: number; sum: number }>();
    for (const { truth, reflections, named, names } of cases) {
      for (const { reflection, origins } of named) {
        for (const { path, confidence } of origins) {
          const key = Math.min(4, Math.floor(confidence * 5));
          const bin = bins.get(key) ?? { right: 0, count: 0, sum: 0 };
          bins.set(key, bin);
          bin.count++;
          bin.sum += confidence;
          if (trueNames(truth, reflections[reflection]!.pathDifferenceM).includes(names[path]!)) bin.right++;
        }
      }
    }
    for (const [key, { right, count, sum }] of bins) {
      // Three standard deviations of counting.
      const scatter = 3 * Math.sqrt(sum * (1 - sum / count));
      expect(right, `from ${key / 5}: ${right} of ${count}`).toBeGreaterThan(sum - scatter - 1);
    }
  });

  it("of what is named, fewer than 1 in 200 is wrong, and every face that is heard is among what is told, but for 1 in 100", () => {
    let named = 0;
    let wrong = 0;
    let heard = 0;
    let told = 0;
    for (const { truth, reflections, named: all, names } of cases) {
      for (const { reflection, origins } of all) {
        if (!origins[0] || origins[0].confidence < NAMED) continue;
        named++;
        const true_ = trueNames(truth, reflections[reflection]!.pathDifferenceM);
        if (!true_.includes(names[origins[0].path]!)) wrong++;
      }
      for (const { detourM, surfaces } of truth) {
        const at = reflections.findIndex(({ pathDifferenceM }) => Math.abs(pathDifferenceM - detourM) < 0.02);
        if (surfaces.length > 1 || at < 0) continue;
        heard++;
        if (all[at]!.origins.some(({ path }) => names[path] === surfaces[0]!.id)) told++;
      }
    }
    expect(heard).toBeGreaterThan(850);
    expect(wrong / named).toBeLessThan(1 / 200);
    expect(told / heard).toBeGreaterThan(0.99);
  });
});

const doubts = { placementM: PLACEMENT_M, volumeM3: 80, soundSpeedMPerS: 343 };
const reflectionAt = (pathDifferenceM: number, levelDb = -12): Reflection => ({
  ...{ delayS: pathDifferenceM / 343, pathDifferenceM, levelDb, levelUncertaintyDb: 0.3 },
  ...{ polarity: 1, firstNotchHz: 343 / (2 * pathDifferenceM), close: pathDifferenceM < 0.343 },
});

describe("A single reflection", () => {
  const source: Point = [1, 1.3, 1.25];
  const listener: Point = [3, 2.3, 1.25];
  const surfaces = faces({ lengthM: 6, widthM: 4.6, heightM: 2.5 });
  const expected = (all: typeof surfaces) =>
    mirrorPaths(source, listener, all).map((path) => ({ ...path, surfaces: path.surfaces.map(({ id }) => id) }));
  const once = (id: string, all = surfaces) => expected(all).find((path) => path.surfaces.join(" ") === id)!;

  it("that floor and ceiling may have sent, both as far away, names both with half the certainty each", () => {
    const paths = expected(surfaces);
    const [{ origins }] = nameReflections([reflectionAt(once("floor").detourM)], paths, doubts) as [NamedReflection];
    expect(origins.map(({ path }) => paths[path]!.surfaces.join(" ")).sort()).toEqual(["ceiling", "floor"]);
    expect(origins[0]!.confidence).toBeCloseTo(origins[1]!.confidence, 6);
    expect(origins[0]!.confidence + origins[1]!.confidence).toBeGreaterThan(NAMED);
  });

  it("that comes 30 cm beside every expected path has no name", () => {
    const paths = expected(surfaces);
    const detours = paths.map(({ detourM }) => detourM).sort((a, b) => a - b);
    const gap = detours.findIndex((detourM, k) => k > 0 && detourM - detours[k - 1]! > 0.6);
    const lonelyM = (detours[gap]! + detours[gap - 1]!) / 2;
    expect(nameReflections([reflectionAt(lonelyM)], paths, doubts)[0]!.origins).toEqual([]);
  });

  it("that is louder than a mirror could make it is not the wall's", () => {
    const front = once("front");
    const mirrorDb = 20 * Math.log10((front.lengthM - front.detourM) / front.lengthM);
    const names = (levelDb: number): number =>
      nameReflections([reflectionAt(front.detourM, levelDb)], expected(surfaces), doubts)[0]!.origins.length;
    expect(names(mirrorDb)).toBeGreaterThan(0);
    expect(names(mirrorDb + 6)).toBe(0);
  });

  it("by a window is the window's while it stands upright, and nobody's when it is tilted back", () => {
    const window = (tiltDeg: number) => {
      const angle = (tiltDeg * Math.PI) / 180;
      return panelSurface({
        id: "window",
        centreM: [0.15, 1.6, 1.4],
        normal: [Math.cos(angle), 0, Math.sin(angle)],
        widthM: 1.8,
        heightM: 1,
      });
    };
    const upright = [...surfaces, window(0)];
    const detourM = once("window", upright).detourM;
    const named = (all: typeof surfaces): string[] => {
      const paths = expected(all);
      return nameReflections([reflectionAt(detourM)], paths, doubts)[0]!.origins.map(({ path }) =>
        paths[path]!.surfaces.join(" "),
      );
    };
    expect(named(upright)[0]).toBe("window");
    expect(named([...surfaces, window(15)])).not.toContain("window");
  });
});
