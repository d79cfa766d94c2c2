import { describe, expect, it } from "vitest";
import { mirrorImages } from "../../../src/simulate/room/mirror-images.js";
import type { Point } from "../../../src/simulate/room/room-path.js";
import { roomImpulse } from "../../../src/simulate/room.js";
import { spectrumAt } from "../spectrum-at.js";
import { plainRoom } from "../test-rooms.js";

const SPEED = 343;

describe("the images of a shoebox room", () => {
  it("between two walls lie where mirrors put them, with one factor for each touch", () => {
    const images = mirrorImages(4, 1, 3, [0.9], [0.8], 9);
    const table = Array.from(images.offsetM, (offset, n) => [offset, images.facing[n], images.strengths[n]]);
    // From the receiver at 3: source at 1, images at -1 (near), 7 (far), 9 (near, far), -7 (far, near), ...
    expect(table.map((row) => row.slice(0, 2))).toEqual([
      [-2, 1],
      [-4, -1],
      [4, -1],
      [6, 1],
    ]);
    [1, 0.9, 0.8, 0.9 * 0.8].forEach((strength, n) => {
      expect(table[n]![2]).toBeCloseTo(strength, 14);
    });
  });

  it("number as many as rooms fit into the sphere that sound has reached", () => {
    const size: Point = [6.1, 4.6, 2.9];
    const reachM = 60;
    const axes = size.map((length) => mirrorImages(length, 0.3 * length, 0.6 * length, [1], [1], reachM).offsetM);
    let count = 0;
    for (const x of axes[0]!)
      for (const y of axes[1]!) for (const z of axes[2]!) if (Math.hypot(x, y, z) <= reachM) count++;
    const expected = ((4 / 3) * Math.PI * reachM ** 3) / (6.1 * 4.6 * 2.9);
    // One image for each room; rooms cut by the sphere's face are counted by chance: some (face / wall)^(1/2) of 1e4.
    expect(Math.abs(count / expected - 1)).toBeLessThan(0.01);
  });
});

it("the axial modes of a nearly rigid room ring at n c / 2L", () => {
  // 7 x 5 x 3 m: 24.5, 49.0 Hz along, 34.3 Hz across, 57.17 Hz upright; in corners every mode sounds.
  const room = plainRoom([7, 5, 3], 0.01);
  const rate = 2000;
  const lengthS = 1.2;
  const impulse = roomImpulse({ room, source: { xyzM: [0, 0, 0] }, receiverM: [7, 5, 3] }, rate, lengthS);
  const windowed = impulse.map((value, n) => value * (0.5 - 0.5 * Math.cos((2 * Math.PI * n) / impulse.length)));
  const levelAt = (frequencyHz: number): number => Math.hypot(...spectrumAt(windowed, rate, frequencyHz));
  for (const expectedHz of [SPEED / 14, SPEED / 10, SPEED / 7, SPEED / 6]) {
    let best = expectedHz - 1;
    for (let frequencyHz = expectedHz - 1; frequencyHz <= expectedHz + 1; frequencyHz += 0.01) {
      if (levelAt(frequencyHz) > levelAt(best)) best = frequencyHz;
    }
    // The window resolves 1 / 1.2 s; its side lobes from the nearest other mode, 3 Hz away, tilt the peak by a tenth.
    expect(Math.abs(best - expectedHz)).toBeLessThan(0.08);
  }
});

describe("the reverberation of a room whose walls all absorb the same", () => {
  const size: Point = [6.1, 4.6, 2.9];
  const absorption = 0.3;
  const impulse = roomImpulse(
    { room: plainRoom(size, absorption), source: { xyzM: [0.8, 1.2, 1.5] }, receiverM: [4.1, 2.9, 1.2] },
    16_000,
    0.9,
  );
  const measured = slopeT30(backwardIntegral(highPassed(impulse)), 1 / 16_000);

  it("is that of all directions' own decays together", () => {
    // In direction u sound meets |ux| c / Lx + |uy| c / Ly + |uz| c / Lz walls a second and keeps 1 - a at each.
    const stepS = 1 / 2000;
    const power = new Float64Array(0.9 / stepS);
    const steps = 60;
    for (let i = 0; i < steps; i++) {
      for (let j = 0; j < steps; j++) {
        const uz = (i + 0.5) / steps;
        const angle = ((j + 0.5) / steps) * (Math.PI / 2);
        const across = Math.sqrt(1 - uz * uz);
        const hits =
          SPEED * ((across * Math.cos(angle)) / size[0] + (across * Math.sin(angle)) / size[1] + uz / size[2]);
        for (let n = 0; n < power.length; n++) power[n]! += (1 - absorption) ** (hits * n * stepS);
      }
    }
    const expected = slopeT30(backwardIntegral(power.map(Math.sqrt)), stepS);
    // B T = 7500 Hz x 0.3 s: chance moves a decay's slope by about 1 / sqrt(B T) = 2 %; discrete early images add as much.
    expect(Math.abs(measured / expected - 1)).toBeLessThan(0.05);
  });

  it("is longer than Eyring's, since sound along the room meets fewer walls than the mean", () => {
    const volume = 6.1 * 4.6 * 2.9;
    const surface = 2 * (6.1 * 4.6 + 6.1 * 2.9 + 4.6 * 2.9);
    const eyring = (24 * Math.LN10 * volume) / (SPEED * surface * -Math.log(1 - absorption));
    expect(measured / eyring).toBeGreaterThan(1);
    // No sound lasts longer than along the length: c / Lx hits a second, against c S / 4 V in the mean, 2.2 times as many.
    expect(measured / eyring).toBeLessThan((surface * size[0]) / (4 * volume));
  });
});

/** Takes the room's constant part and lowest modes away, which decay by another law. */
function highPassed(samples: Float64Array): Float64Array {
  return samples.map((value, n) => value - (samples[n - 1] ?? 0));
}

function backwardIntegral(samples: Float64Array): Float64Array {
  const left = new Float64Array(samples.length);
  for (let n = samples.length - 1, sum = 0; n >= 0; n--) left[n] = sum += samples[n]! ** 2;
  return left.map((energy) => 10 * Math.log10(energy / left[0]!));
}

/** Least squares from -5 to -35 dB. */
function slopeT30(curveDb: Float64Array, stepS: number): number {
  const points = Array.from(curveDb, (level, n) => [n * stepS, level] as const).filter(([, l]) => l <= -5 && l >= -35);
  const meanT = points.reduce((sum, [t]) => sum + t, 0) / points.length;
  const meanL = points.reduce((sum, [, l]) => sum + l, 0) / points.length;
  const slope =
    points.reduce((sum, [t, l]) => sum + (t - meanT) * (l - meanL), 0) /
    points.reduce((sum, [t]) => sum + (t - meanT) ** 2, 0);
  return -60 / slope;
}
