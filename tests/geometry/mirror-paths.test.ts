import { describe, expect, it } from "vitest";
import { mirrorPath, mirrorPaths } from "../../src/geometry/mirror-paths.js";
import { passesBy } from "../../src/geometry/passes-by.js";
import { distance, type Point } from "../../src/geometry/point.js";
import { faces, FACES, panelSurface } from "../../src/geometry/surfaces.js";
import { Random } from "../../src/simulate/random.js";
import { mirrorImages } from "../../src/simulate/room/mirror-images.js";

const size: Point = [6.1, 4.6, 2.9];
const room = { lengthM: size[0], widthM: size[1], heightM: size[2] };
const source: Point = [0.8, 1.2, 1.3];
const receiver: Point = [3.1, 2.4, 1.2];
const all = faces(room);
const face = (id: string) => all.find((one) => one.id === id)!;

describe("A reflection by a wall", () => {
  it("goes by way of a triangle of 3, 4 and 5: source 1.5 m over the floor, listener 2.5 m, 3 m apart", () => {
    const path = mirrorPath([1, 1, 1.5], [4, 1, 2.5], [face("floor")])!;
    // The image lies 4 m under the listener and 3 m aside.
    expect(path.lengthM).toBeCloseTo(5, 12);
    expect(path.detourM).toBeCloseTo(5 - Math.hypot(3, 1), 12);
    // Similar triangles: 1.5 to 2.5.
    expect(path.pointsM[0]![0]).toBeCloseTo(1 + (3 * 1.5) / 4, 12);
    expect(path.pointsM[0]![2]).toBeCloseTo(0, 12);
  });

  it("and by every pair of walls is as long as the simulation's images say, each once", () => {
    const paths = mirrorPaths(source, receiver, all);
    const axes = size.map((length, axis) => mirrorImages(length, source[axis]!, receiver[axis]!, [0.9], [0.9], 40));
    const lengths: number[] = [];
    for (let i = 0; i < axes[0]!.offsetM.length; i++) {
      for (let j = 0; j < axes[1]!.offsetM.length; j++) {
        for (let k = 0; k < axes[2]!.offsetM.length; k++) {
          const touches = axes[0]!.strengths[i]! * axes[1]!.strengths[j]! * axes[2]!.strengths[k]!;
          const count = Math.round(Math.log(touches) / Math.log(0.9));
          if (count === 1 || count === 2)
            lengths.push(Math.hypot(axes[0]!.offsetM[i]!, axes[1]!.offsetM[j]!, axes[2]!.offsetM[k]!));
        }
      }
    }
    const sorted = (values: number[]): number[] => values.sort((a, b) => a - b);
    const found = sorted(paths.map(({ lengthM }) => lengthM));
    // 6 by one wall; 12 by two walls at right angles, 6 by two that face each other.
    expect(found).toHaveLength(24);
    sorted(lengths).forEach((length, n) => {
      expect(found[n]).toBeCloseTo(length, 10);
    });
  });

  it("changes its detour, as the loudspeaker or the listener moves, by the derivative stated", () => {
    for (const path of mirrorPaths(source, receiver, all)) {
      for (const axis of [0, 1, 2] as const) {
        const move = (at: Point): Point => at.map((value, n) => value + (n === axis ? 1e-5 : 0)) as [...Point];
        const again = (from: Point, to: Point): number => mirrorPath(from, to, path.surfaces)!.detourM;
        // A step of 1e-5 m bends the curve by its second derivative, under 2 per m: 1e-5.
        expect(Math.abs((again(move(source), receiver) - path.detourM) / 1e-5 - path.perSource[axis])).toBeLessThan(
          2e-5,
        );
        expect(Math.abs((again(source, move(receiver)) - path.detourM) / 1e-5 - path.perReceiver[axis])).toBeLessThan(
          2e-5,
        );
      }
    }
  });

  it("needs no dimensions for front wall, left wall and floor, from which places are measured", () => {
    expect(faces({}).map(({ id }) => id)).toEqual(["front", "left", "floor"]);
    expect(faces({ heightM: 2.5 }).map(({ id }) => id)).toEqual(["front", "left", "floor", "ceiling"]);
    expect(all.map(({ id }) => id)).toEqual([...FACES]);
  });

  it("obeys the law of reflection at random places", () => {
    const random = new Random(1);
    for (let n = 0; n < 200; n++) {
      const place = (): Point => size.map((metres) => metres * (0.02 + 0.96 * random.uniform())) as [...Point];
      const [from, to] = [place(), place()];
      for (const surface of all) {
        const { pointsM, lengthM } = mirrorPath(from, to, [surface])!;
        expect(distance(from, pointsM[0]!) + distance(pointsM[0]!, to)).toBeCloseTo(lengthM, 10);
      }
    }
  });
});

describe("A window in the front wall, 1.6 m wide and 1 m high", () => {
  const window = (tiltDeg: number) => {
    const angle = (tiltDeg * Math.PI) / 180;
    return panelSurface({
      id: "window",
      centreM: [0.1, 2.3, 1.5],
      normal: [Math.cos(angle), 0, Math.sin(angle)],
      widthM: 1.6,
      heightM: 1,
    });
  };
  const speaker: Point = [1.2, 1.6, 1.25];
  const listener: Point = [3.2, 2.3, 1.25];

  it("reflects the loudspeaker to the listener when it stands upright", () => {
    const path = mirrorPath(speaker, listener, [window(0)])!;
    expect(path.insideM).toBeGreaterThan(0.1);
    expect(path.detourM).toBeCloseTo(Math.hypot(1.1 + 3.1, 0.7) - Math.hypot(2, 0.7), 10);
  });

  it("tilted back by 15 degrees has no point that does, and sends what meets its middle over the listener's head", () => {
    const path = mirrorPath(speaker, listener, [window(15)]);
    expect(path === null || path.insideM < 0).toBe(true);
    const by = passesBy(speaker, listener, window(15))!;
    // 30 degrees up over 3.1 m, from a ray that came up by 0.25 m on 1.3 m: more than a head's height over the head.
    expect(by.aboveM).toBeGreaterThan(1);
  });

  it("stands before the wall behind it", () => {
    const front = mirrorPaths(speaker, listener, [...all, window(0)]).find(
      ({ surfaces }) => surfaces.length === 1 && surfaces[0]!.id === "front",
    )!;
    expect(front.blockedBy).toEqual(["window"]);
  });
});

it("A desk between loudspeaker and listener lies level, as wide across the room as stated", () => {
  const desk = panelSurface({ id: "desk", centreM: [2, 2, 0.7], normal: [0, 0, 1], widthM: 1.8, heightM: 0.8 });
  expect(mirrorPath([1.5, 1.2, 1.2], [2.5, 1.2, 1.2], [desk])!.insideM).toBeCloseTo(0.1, 10);
  expect(mirrorPath([1.0, 2, 1.2], [2.1, 2, 1.2], [desk])!.insideM).toBeLessThan(0);
});
