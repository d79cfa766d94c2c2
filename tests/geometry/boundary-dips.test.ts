import { describe, expect, it } from "vitest";
import { boundaryDips, keepsToEars, moveForShift } from "../../src/geometry/boundary-dips.js";
import { mirrorPath } from "../../src/geometry/mirror-paths.js";
import type { Point } from "../../src/geometry/point.js";
import { faces } from "../../src/geometry/surfaces.js";
import { roomImpulse } from "../../src/simulate/room.js";
import { alike, plainRoom } from "../simulate/test-rooms.js";
import { spectrumAt } from "../simulate/spectrum-at.js";

const SPEED = 343;
const RATE = 8000;
const front = faces({})[0]!;
const listener: Point = [3.2, 2.2, 1.2];

/** A room of which only the front wall reflects. */
const half = plainRoom([7, 5, 3], 1, { front: alike(0) });

/** The lowest level between two frequencies. */
function lowestHz(source: Point, fromHz: number, toHz: number): number {
  const impulse = roomImpulse({ room: half, source: { xyzM: source }, receiverM: listener }, RATE, 0.2);
  let best = fromHz;
  const level = (hz: number): number => Math.hypot(...spectrumAt(impulse, RATE, hz));
  for (let hz = fromHz; hz <= toHz; hz += 0.1) if (level(hz) < level(best)) best = hz;
  return best;
}

describe("A loudspeaker before a wall", () => {
  it("has its dips at odd multiples of c over twice the detour: 1.715 m, 100, 300 and 500 Hz", () => {
    const dips = boundaryDips({ detourM: 1.715, lengthM: 3.43 }, SPEED, 600);
    expect(dips.map(({ frequencyHz }) => Math.round(frequencyHz * 1e6) / 1e6)).toEqual([100, 300, 500]);
    // Half as strong: from 1.5 to 0.5.
    expect(dips[0]!.mostDb).toBeCloseTo(20 * Math.log10(3), 10);
  });

  it("on the axis of the listener has its first dip at c over four times its distance: the quarter wave", () => {
    const path = mirrorPath([0.8, 2, 1.2], [3, 2, 1.2], [front])!;
    expect(boundaryDips(path, SPEED, 200)[0]!.frequencyHz).toBeCloseTo(SPEED / (4 * 0.8), 10);
  });

  it("shows the dip in simulation where it is predicted", () => {
    for (const x of [0.6, 0.9, 1.3]) {
      const source: Point = [x, 1.4, 1.2];
      const expectedHz = boundaryDips(mirrorPath(source, listener, [front])!, SPEED, 300)[0]!.frequencyHz;
      // The grid's step, 0.1 Hz.
      expect(Math.abs(lowestHz(source, 0.7 * expectedHz, 1.3 * expectedHz) - expectedHz)).toBeLessThan(0.11);
    }
  });

  it("when moved as advised has it a third of an octave higher or lower, in simulation as well", () => {
    const source: Point = [0.9, 1.4, 1.2];
    const dipHz = boundaryDips(mirrorPath(source, listener, [front])!, SPEED, 300)[0]!.frequencyHz;
    const ratio = 2 ** (1 / 3);
    const { towards, away } = moveForShift(source, listener, front, dipHz, ratio, ([x]) => x > 0.1);
    for (const [move, factor] of [
      [towards!, ratio],
      [away!, 1 / ratio],
    ] as const) {
      // Moves are sought in whole centimetres, of some 20: 5 %.
      expect(Math.abs(move.toHz / (dipHz * factor) - 1)).toBeLessThan(0.05);
      const moved: Point = [source[0] + move.awayM, source[1], source[2]];
      expect(Math.abs(lowestHz(moved, 0.7 * move.toHz, 1.3 * move.toHz) - move.toHz)).toBeLessThan(0.11);
    }
    expect(towards!.awayM).toBeLessThan(0);
    expect(away!.awayM).toBeGreaterThan(0);
  });

  it("that would have to stand in the wall to get there is given no such move", () => {
    const source: Point = [0.2, 1.4, 1.2];
    const dipHz = boundaryDips(mirrorPath(source, listener, [front])!, SPEED, 1000)[0]!.frequencyHz;
    expect(moveForShift(source, listener, front, dipHz, 2, ([x]) => x > 0.15).towards).toBeNull();
  });
});

describe("A loudspeaker moved in height", () => {
  it("stays within so many degrees of the ears: 80 cm at 3 m are 14.9°, 81 cm 15.1°", () => {
    expect(keepsToEars([0, 0, 1.2], [0, 0, 2.0], [3, 0, 1.2], 15)).toBe(true);
    expect(keepsToEars([0, 0, 1.2], [0, 0, 2.01], [3, 0, 1.2], 15)).toBe(false);
    expect(keepsToEars([0, 0, 1.2], [0, 0, 0.39], [3, 0, 1.2], 15)).toBe(false);
  });

  it("that hangs higher may come down, and may not go up", () => {
    expect(keepsToEars([0, 0, 3], [0, 0, 2.5], [3, 0, 1.2], 15)).toBe(true);
    expect(keepsToEars([0, 0, 3], [0, 0, 3.1], [3, 0, 1.2], 15)).toBe(false);
  });
});
