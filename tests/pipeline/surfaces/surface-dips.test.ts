import { describe, expect, it } from "vitest";
import { mirrorPaths } from "../../../src/geometry/mirror-paths.js";
import type { Point } from "../../../src/geometry/point.js";
import { faces } from "../../../src/geometry/surfaces.js";
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
  const paths = mirrorPaths(places.sourceM, places.receiverM, faces(stated));
  const measurement = { response } as Measurement;
  return surfaceDips(measurement, null, paths, places, { room: stated, soundSpeedMPerS: 343, placementM: 0.02 });
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
