import { describe, expect, it } from "vitest";
import { mirrorPaths } from "../../../src/geometry/mirror-paths.js";
import type { Point } from "../../../src/geometry/point.js";
import { faces, panelSurface, type Surface } from "../../../src/geometry/surfaces.js";
import { measureResponse } from "../../../src/metrics/response/response.js";
import type { Measurement } from "../../../src/model.js";
import { surfaceDips } from "../../../src/pipeline/surface-dips.js";
import { Random } from "../../../src/simulate/random.js";
import { roomImpulse } from "../../../src/simulate/room.js";
import { moved } from "../../comparison/surfaces/simulated-rooms.js";
import { alike, plainRoom } from "../../simulate/test-rooms.js";

const RATE = 6000;
const BEFORE = 0.8 * RATE;
const SIZE: Point = [6.4, 4.9, 2.8];
const source: Point = [0.9, 1.3, 1.15];
const receiver: Point = [2.9, 2.45, 1.2];
const random = new Random(3);

/** The response with only one wall that reflects, and places a tape measure's error beside the true ones. */
function dipsBy(face: string): ReturnType<typeof surfaceDips> {
  const room = plainRoom(SIZE, 1, { [face]: alike(0.1) });
  const answer = roomImpulse({ room, source: { xyzM: source }, receiverM: receiver }, RATE, 0.6);
  const directM = Math.hypot(...source.map((value, axis) => value - receiver[axis]!));
  const samples = Float64Array.from([...new Float64Array(BEFORE), ...answer]);
  const arrivalSample = BEFORE + (RATE * directM) / 343;
  const impulse = { samples, sampleRate: RATE, arrivalSample, polarity: 1 as const };
  const { response } = measureResponse({ ...impulse, sweptHz: [20, 2500], noise: null }, 0, null);
  const places = { sourceM: moved(source, 0.02, random), receiverM: moved(receiver, 0.02, random) };
  const stated = { lengthM: SIZE[0], widthM: SIZE[1], heightM: SIZE[2] };
  return dipsOf(response, places, faces(stated));
}

function dipsOf(
  response: Measurement["response"],
  places: { readonly sourceM: Point; readonly receiverM: Point },
  all: readonly Surface[],
): ReturnType<typeof surfaceDips> {
  const paths = mirrorPaths(places.sourceM, places.receiverM, all);
  const measurement = { response } as Measurement;
  return surfaceDips(measurement, null, paths, places, { all, soundSpeedMPerS: 343, placementM: 0.02 });
}

describe("A room of which one wall reflects", () => {
  // The far walls' reflections are too weak for dips of 6 dB.
  it.each(["front", "left", "floor", "ceiling"])(
    "shows the dips of its %s where they are predicted, and names it",
    (face) => {
      const { measured, predicted } = dipsBy(face);
      const own = predicted.filter((dip) => dip.surface === face);
      expect(own.length).toBeGreaterThan(0);
      for (const dip of own) {
        const there = measured.find(({ fitting }) => fitting.some((index) => predicted[index] === dip));
        expect(there, `${face} ${dip.frequencyHz}`).toBeDefined();
        // Placement, twice its standard uncertainty, and half a step of the smoothing over a 24th of an octave.
        const most = 2 * dip.frequencyUncertaintyHz + 0.015 * dip.frequencyHz;
        expect(Math.abs(there!.frequencyHz - dip.frequencyHz)).toBeLessThan(most);
      }
    },
  );

  it("is told what moving the loudspeaker does, in both directions where there is room", () => {
    const { measured, predicted } = dipsBy("front");
    const first = measured.find(({ fitting }) => predicted[fitting[0] ?? -1]?.surface === "front")!;
    expect(first.moves.map(({ awayM }) => Math.sign(awayM))).toEqual([-1, 1]);
    for (const { toHz } of first.moves) {
      const shift = Math.abs(Math.log2(toHz / predicted[first.fitting[0]!]!.frequencyHz));
      // A third of an octave, and a centimetre more of some thirty.
      expect(shift).toBeGreaterThan(0.333);
      expect(shift).toBeLessThan(0.37);
    }
  });
});

describe("A dip that a move shifts", () => {
  it("lies within a range that places scattered by 2 cm in each coordinate give", () => {
    const frequencyHz = Array.from({ length: 480 }, (_, k) => 20 * 2 ** (k / 96));
    const detourM = Math.hypot(3.8, 1.15, 0.05) - Math.hypot(2, 1.15, 0.05);
    const levelDb = frequencyHz.map((hz) => 5 * Math.log10(1.1 + Math.cos((2 * Math.PI * hz * detourM) / 343)));
    const response = { frequencyHz, levelDb } as unknown as Measurement["response"];
    const { measured, predicted } = dipsOf(response, { sourceM: source, receiverM: receiver }, faces({}));
    const [move] = measured.find(({ fitting }) => predicted[fitting[0] ?? -1]?.surface === "front")!.moves;
    const from: Point = [source[0] + move!.awayM, source[1], source[2]];
    const chance = new Random(8);
    const scattered = Array.from({ length: 2000 }, () => {
      const [a, b] = [moved(from, 0.02, chance), moved(receiver, 0.02, chance)];
      // Mirrored at x = 0.
      const aside = [a[1] - b[1], a[2] - b[2]] as const;
      return 343 / 2 / (Math.hypot(a[0] + b[0], ...aside) - Math.hypot(a[0] - b[0], ...aside));
    });
    const mean = scattered.reduce((sum, hz) => sum + hz, 0) / scattered.length;
    const deviation = Math.sqrt(scattered.reduce((sum, hz) => sum + (hz - mean) ** 2, 0) / scattered.length);
    // Counting error of a standard deviation of 2000: 1.6 %, three times; bends of the second order add (2 cm / 60 cm)² of it.
    expect(Math.abs(move!.toUncertaintyHz! / deviation - 1)).toBeLessThan(0.05);
  });
});

describe("A loudspeaker 21 cm over a desk", () => {
  const places = { sourceM: [3.1, 2.28, 0.95] as Point, receiverM: [4.3, 2.45, 0.9] as Point };
  const top = { id: "desk", centreM: [3.3, 2.45, 0.74] as Point, normal: [0, 0, 1] as Point };
  const desk = panelSurface({ ...top, widthM: 1.9, heightM: 0.9 });
  const room = faces({ lengthM: SIZE[0], widthM: SIZE[1], heightM: SIZE[2] });
  /** A dip where the floor's reflection is half a wave late: 343 / 2 / (hypot(1.212, 1.85) - hypot(1.212, 0.05)). */
  const frequencyHz = Array.from({ length: 480 }, (_, k) => 20 * 2 ** (k / 96));
  const detourM = Math.hypot(1.212, 1.85) - Math.hypot(1.212, 0.05);
  const levelDb = frequencyHz.map((hz) => 5 * Math.log10(1.1 + Math.cos((2 * Math.PI * hz * detourM) / 343)));
  const response = { frequencyHz, levelDb } as unknown as Measurement["response"];
  const floorDips = (all: readonly Surface[]) => dipsOf(response, places, all).predicted.map(({ surface }) => surface);

  it("is predicted no dip of the floor, which the desk hides from it", () => {
    expect(floorDips(room)).toContain("floor");
    expect(floorDips([...room, desk])).not.toContain("floor");
  });

  it("is not told to go through the desk, nor so near that its box would stand in it", () => {
    // Under the loudspeaker, but beside the way to the floor, which comes down to its height at x = 3.24. Ears low enough that they do not forbid the move.
    const shelf = panelSurface({ ...top, centreM: [3.05, 2.28, 0.74], widthM: 0.2, heightM: 0.2 });
    const towards = (all: readonly Surface[]): number[] => {
      const { measured, predicted } = dipsOf(response, places, all);
      const ofFloor = measured.filter(({ fitting }) => predicted[fitting[0] ?? -1]?.surface === "floor");
      expect(ofFloor.length).toBeGreaterThan(0);
      return ofFloor.flatMap(({ moves }) => moves.map(({ awayM }) => awayM).filter((awayM) => awayM < 0));
    };
    expect(towards(room)[0]).toBeLessThan(-0.11);
    expect(towards([...room, shelf])).toEqual([]);
  });
});

describe("A room of which less is stated", () => {
  const places = { sourceM: source, receiverM: receiver };
  const frequencyHz = Array.from({ length: 480 }, (_, k) => 20 * 2 ** (k / 96));
  /** Dips of 8 dB all over. */
  const levelDb = frequencyHz.map((hz) => 4 * Math.cos(2 * Math.PI * 3 * Math.log2(hz)));
  const response = { frequencyHz, levelDb } as unknown as Measurement["response"];

  it("never makes a fit look surer", () => {
    const [lengthM, widthM, heightM] = SIZE;
    const stated = [{ lengthM, widthM, heightM }, { lengthM, widthM }, { lengthM, heightM }, { widthM }, {}];
    const [all, ...fewer] = stated.map((room) => dipsOf(response, places, faces(room)).measured);
    expect(all!.length).toBeGreaterThan(3);
    for (const less of fewer) {
      expect(less).toHaveLength(all!.length);
      less.forEach(({ byChance }, k) => {
        expect(byChance).toBeGreaterThanOrEqual(all![k]!.byChance);
      });
    }
    expect(fewer.at(-1)![0]!.byChance).toBeGreaterThan(all![0]!.byChance);
  });
});
