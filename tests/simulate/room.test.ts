import { describe, expect, it } from "vitest";
import { ArrivalGrid } from "../../src/simulate/room/arrival-grid.js";
import { collectImages } from "../../src/simulate/room/collect-images.js";
import { joinBands } from "../../src/simulate/room/join-bands.js";
import { octaveShares, type Octaves } from "../../src/simulate/room/octave-split.js";
import type { RoomPath } from "../../src/simulate/room/room-path.js";
import { roomImpulse } from "../../src/simulate/room.js";
import { spectrumAt } from "./spectrum-at.js";
import { alike, plainRoom } from "./test-rooms.js";

const RATE = 48_000;
/** What the finer grid promises for one arrival, see ArrivalGrid. */
const GRID_ERROR = 1e-6;

describe("the direct sound in a room that swallows every reflection", () => {
  const path: RoomPath = {
    room: plainRoom([6, 5, 3], 1),
    source: { xyzM: [1, 1, 1] },
    receiverM: [3, 2, 1.37],
  };
  const distanceM = Math.hypot(2, 1, 0.37);

  it("arrives after distance over speed of sound with one over the distance, at every frequency up to 20 kHz", () => {
    const impulse = roomImpulse(path, RATE, 0.1);
    for (const frequencyHz of [31.5, 100, 1000, 4321, 10_000, 16_000, 20_000]) {
      const [real, imaginary] = spectrumAt(impulse, RATE, frequencyHz);
      const angle = (-2 * Math.PI * frequencyHz * distanceM) / 343;
      // The cut at both ends takes the tails of the band limit, which fall below 1e-6 within the 5 ms before the arrival.
      expect(Math.hypot(real - Math.cos(angle) / distanceM, imaginary - Math.sin(angle) / distanceM)).toBeLessThan(
        2 * GRID_ERROR,
      );
    }
  });

  it("comes half as strong from the side of a cardioid and not at all from behind", () => {
    const levelWhenAimedAt = (aimM: [number, number, number]): number => {
      const impulse = roomImpulse(
        { ...path, source: { xyzM: [1, 1, 1], aimM, directivity: alike(0.5) }, receiverM: [3, 1, 1] },
        RATE,
        0.1,
      );
      return Math.hypot(...spectrumAt(impulse, RATE, 1000));
    };
    expect(levelWhenAimedAt([5, 1, 1])).toBeCloseTo(1 / 2, 5);
    expect(levelWhenAimedAt([1, 4, 1])).toBeCloseTo(1 / 4, 5);
    expect(levelWhenAimedAt([0.5, 1, 1])).toBeCloseTo(0, 5);
  });

  it("is joined by a reflection from a desk at the stated delay, level and polarity", () => {
    const withDesk = roomImpulse({ ...path, extraPaths: [{ delayS: 0.00123, levelDb: -6, polarity: -1 }] }, RATE, 0.1);
    for (const frequencyHz of [100, 407, 3000]) {
      const [dr, di] = spectrumAt(roomImpulse(path, RATE, 0.1), RATE, frequencyHz);
      const [wr, wi] = spectrumAt(withDesk, RATE, frequencyHz);
      const gain = -(10 ** (-6 / 20));
      const angle = -2 * Math.PI * frequencyHz * 0.00123;
      const [gr, gi] = [1 + gain * Math.cos(angle), gain * Math.sin(angle)];
      expect(Math.hypot(wr - (dr * gr - di * gi), wi - (dr * gi + di * gr))).toBeLessThan(4 * GRID_ERROR);
    }
  });
});

describe("the reflections of a shoebox room", () => {
  it("by the floor alone are one, by the mirrored path, weaker by the floor's reflection factor", () => {
    const path: RoomPath = {
      room: plainRoom([6, 5, 3], 1, { floor: alike(0.36) }),
      source: { xyzM: [1, 1, 1.2] },
      receiverM: [3, 2, 1.4],
    };
    const impulse = roomImpulse(path, RATE, 0.1);
    const direct = Math.hypot(2, 1, 0.2);
    const mirrored = Math.hypot(2, 1, 2.6);
    for (const frequencyHz of [50, 500, 5000]) {
      const [real, imaginary] = spectrumAt(impulse, RATE, frequencyHz);
      const turn = (2 * Math.PI * frequencyHz) / 343;
      const expectedReal = Math.cos(turn * direct) / direct + (0.8 * Math.cos(turn * mirrored)) / mirrored;
      const expectedImaginary = -Math.sin(turn * direct) / direct - (0.8 * Math.sin(turn * mirrored)) / mirrored;
      expect(Math.hypot(real - expectedReal, imaginary - expectedImaginary)).toBeLessThan(4 * GRID_ERROR);
    }
  });

  it("are those of a plain sum over all images, with walls, air and a loudspeaker that differ by octave", () => {
    const walls = {
      front: [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8] as Octaves,
      rear: [0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1] as Octaves,
      left: alike(0.15),
      right: [0.2, 0.2, 0.3, 0.3, 0.2, 0.2, 0.3, 0.3] as Octaves,
      floor: alike(0.05),
      ceiling: alike(0.5),
    };
    const airDbPerM: Octaves = [0, 0.001, 0.002, 0.01, 0.02, 0.04, 0.08, 0.2];
    const directivity: Octaves = [0, 0, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5];
    const path: RoomPath = {
      room: { ...plainRoom([4.1, 3.3, 2.6], 0), absorption: walls, airDbPerM },
      source: { xyzM: [0.6, 0.9, 1.1], aimM: [3, 2, 1.5], directivity },
      receiverM: [2.9, 1.7, 1.3],
    };
    const lengthS = 0.06;
    const length = lengthS * RATE;
    const size = 4096;
    const grid = new ArrivalGrid(8, size);
    collectImages(path, [0, 1, 2, 3, 4, 5, 6, 7], RATE, length, grid);
    const bands = { members: [0, 1, 2, 3, 4, 5, 6, 7], gridOf: [0, 1, 2, 3, 4, 5, 6, 7] };
    const spectrum = joinBands(grid, bands, 0, RATE, size);
    for (const bin of [5, 11, 17, 43, 85, 145, 427, 1000]) {
      const { real, imaginary, strengths } = plainSum(path, (bin * RATE) / size, (length - 1) / RATE);
      const error = Math.hypot(spectrum[2 * bin]! - real, spectrum[2 * bin + 1]! - imaginary);
      // What the air leaves is looked up to half a step of 0.1 m, so within 0.05 m x 0.2 dB/m; the grid adds its own.
      expect(error).toBeLessThan(strengths * (GRID_ERROR + (0.05 * 0.2 * Math.LN10) / 20));
      expect(error).toBeLessThan(0.01 * Math.hypot(real, imaginary));
    }
  });

  it("stay the same when source and receiver change places", () => {
    const room = { ...plainRoom([6.1, 4.6, 2.9], 0.3), leakHz: 5 };
    const there = roomImpulse({ room, source: { xyzM: [0.7, 1.1, 1.4] }, receiverM: [2.4, 2.2, 1.2] }, RATE, 0.2);
    const back = roomImpulse({ room, source: { xyzM: [2.4, 2.2, 1.2] }, receiverM: [0.7, 1.1, 1.4] }, RATE, 0.2);
    const worst = there.reduce((most, value, n) => Math.max(most, Math.abs(value - back[n]!)), 0);
    // The images lie at the same distances but for rounding, and are added in another order.
    expect(worst).toBeLessThan(1e-9);
  });

  it("build up no constant pressure in a room that leaks", () => {
    const tight: RoomPath = {
      room: plainRoom([6.1, 4.6, 2.9], 0.5),
      source: { xyzM: [0.7, 1.1, 1.4] },
      receiverM: [2.4, 2.2, 1.2],
    };
    const leaky: RoomPath = { ...tight, room: { ...tight.room, leakHz: 5 } };
    const sum = (path: RoomPath): number => roomImpulse(path, RATE, 0.8).reduce((total, value) => total + value, 0);
    // The leak's own decay, exp(-2 pi 5 / sqrt(2) t), is what the cut at 0.8 s leaves over: 2e-8.
    expect(Math.abs(sum(leaky))).toBeLessThan(1e-6 * sum(tight));
    expect(sum(tight)).toBeGreaterThan(5);
  });
});

it("the shares of the octaves add up to one at every frequency and are whole at the midbands", () => {
  expect(octaveShares(1000)).toEqual({ band: 4, share: 1, above: 0 });
  expect(octaveShares(0)).toEqual({ band: 0, share: 1, above: 0 });
  expect(octaveShares(20_000)).toEqual({ band: 7, share: 1, above: 0 });
  for (let frequencyHz = 10; frequencyHz < 20_000; frequencyHz *= 1.1) {
    const { share, above } = octaveShares(frequencyHz);
    expect(share + above).toBeCloseTo(1, 14);
  }
});

it("a source outside the room, or at the receiver, is refused", () => {
  const room = plainRoom([6, 5, 3], 0.5);
  expect(() => roomImpulse({ room, source: { xyzM: [7, 1, 1] }, receiverM: [1, 1, 1] }, RATE, 0.1)).toThrow(RangeError);
  expect(() => roomImpulse({ room, source: { xyzM: [1, 1, 1] }, receiverM: [1, 1, 1] }, RATE, 0.1)).toThrow(RangeError);
  expect(() => roomImpulse({ room, source: { xyzM: [1, 1, 1] }, receiverM: [2, 1, 1] }, RATE, 0)).toThrow(RangeError);
});

/** Allen and Berkley's sum as printed, image by image, at one frequency that is read octave by octave. */
function plainSum(
  path: RoomPath,
  frequencyHz: number,
  lengthS: number,
): { real: number; imaginary: number; strengths: number } {
  const { room, source, receiverM } = path;
  const { band, share, above } = octaveShares(frequencyHz);
  const aim = source.aimM!.map((to, axis) => to - source.xyzM[axis]!);
  const aimLength = Math.hypot(...aim);
  let real = 0;
  let imaginary = 0;
  let strengths = 0;
  for (let l = -7; l <= 7; l++)
    for (let m = -8; m <= 8; m++)
      for (let n = -9; n <= 9; n++)
        for (const q of [0, 1])
          for (const j of [0, 1])
            for (const k of [0, 1]) {
              const image = [
                (1 - 2 * q) * source.xyzM[0] + 2 * l * room.sizeM[0],
                (1 - 2 * j) * source.xyzM[1] + 2 * m * room.sizeM[1],
                (1 - 2 * k) * source.xyzM[2] + 2 * n * room.sizeM[2],
              ];
              const toReceiver = receiverM.map((to, axis) => to - image[axis]!);
              const distance = Math.hypot(...toReceiver);
              if (distance / room.soundSpeedMPerS > lengthS) continue;
              const imageAim = [aim[0]! * (1 - 2 * q), aim[1]! * (1 - 2 * j), aim[2]! * (1 - 2 * k)];
              const cosine = toReceiver.reduce((sum, to, axis) => sum + to * imageAim[axis]!, 0) / distance / aimLength;
              const strengthIn = (octave: number): number => {
                const factor = (wall: keyof typeof room.absorption): number =>
                  Math.sqrt(1 - room.absorption[wall][octave]!);
                const beam = source.directivity![octave]!;
                return (
                  (factor("front") ** Math.abs(l - q) *
                    factor("rear") ** Math.abs(l) *
                    factor("left") ** Math.abs(m - j) *
                    factor("right") ** Math.abs(m) *
                    factor("floor") ** Math.abs(n - k) *
                    factor("ceiling") ** Math.abs(n) *
                    (1 - beam + beam * cosine) *
                    10 ** (-(room.airDbPerM![octave]! * distance) / 20)) /
                  distance
                );
              };
              const strength = share * strengthIn(band) + above * strengthIn(Math.min(band + 1, 7));
              strengths += Math.abs(strength);
              const angle = (-2 * Math.PI * frequencyHz * distance) / room.soundSpeedMPerS;
              real += strength * Math.cos(angle);
              imaginary += strength * Math.sin(angle);
            }
  return { real, imaginary, strengths };
}
