import { describe, expect, it } from "vitest";
import { betweenWalls } from "../../../src/comparison/flutter/between-walls.js";
import type { Point } from "../../../src/geometry/point.js";
import { findFlutter } from "../../../src/metrics/flutter/find-flutter.js";
import type { ImpulseResponse } from "../../../src/model.js";
import { demoStudio } from "../../../src/simulate/demo-studio.js";
import { Random } from "../../../src/simulate/random.js";
import type { ShoeboxRoom } from "../../../src/simulate/room/room-path.js";
import { roomImpulse } from "../../../src/simulate/room.js";
import { impulseOf, measuredPresent, measuredResponse } from "../../metrics/decay/reference-responses.js";
import { alike, cleanStudio, dryStudio, plainRoom } from "../../simulate/test-rooms.js";

const RATE = 48_000;
const SIZE: Point = [6.1, 4.6, 2.9];
const source: Point = [1, 1.3, 1.25];
const random = new Random(5);

function arrived(samples: Float64Array): ImpulseResponse {
  const peak = samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  let at = samples.findIndex((value) => Math.abs(value) > 0.3 * peak);
  for (let n = at; n < at + 20; n++) if (Math.abs(samples[n]!) > Math.abs(samples[at]!)) at = n;
  return { ...impulseOf(samples, RATE, at), sweptHz: [20, 20_000] };
}

function withNoise(samples: Float64Array): Float64Array {
  const errors = random.fillNormal(new Float64Array(samples.length));
  return samples.map((value, n) => value + 3e-6 * errors[n]!);
}

function heard(room: ShoeboxRoom, receiverM: Point, from: Point = source): ImpulseResponse {
  return arrived(withNoise(roomImpulse({ room, source: { xyzM: from }, receiverM }, RATE, 1)));
}

const flutterIn = (impulse: ImpulseResponse, size: readonly number[] = SIZE) => {
  const train = findFlutter(impulse);
  return train && betweenWalls(train, size, 343);
};

const bare = (share: number, ...names: string[]): ShoeboxRoom =>
  plainRoom(SIZE, 0.8, Object.fromEntries(names.map((name) => [name, alike(share)])));
const pairs = [
  ["front and rear wall", 0, ["front", "rear"]],
  ["the side walls", 1, ["left", "right"]],
  ["floor and ceiling", 2, ["floor", "ceiling"]],
] as const;

describe("Two bare walls that face each other in a room otherwise lined", () => {
  it.each(pairs)("%s, are told by their distance and by name, wherever the microphone stands", (_, axis, names) => {
    for (const receiver of [
      [3.05, 2.3, 1.45],
      [3.4, 1.9, 1.3],
      [2.6, 2.5, 1.2],
    ] as const) {
      const found = flutterIn(heard(bare(0.15, ...names), receiver));
      expect(found?.axes, receiver.join(" ")).toEqual([axis]);
      // A third of a bin of 0.25 ms on the period is 1.4 cm; midway it counts twice.
      expect(Math.abs(found!.distanceM - SIZE[axis])).toBeLessThan(0.03);
    }
  });

  it("lose on a round trip what they absorb, and what distance takes", () => {
    const loss = (share: number): number =>
      flutterIn(heard(bare(share, "left", "right"), [3.4, 1.9, 1.3]))!.roundTripDb;
    for (const share of [0.1, 0.2, 0.3]) {
      const walls = -20 * Math.log10(1 - share);
      // Spherical spreading over a train from 12 to 300 ms takes 28 dB on 31 round trips of 27 ms, more at its beginning.
      expect(loss(share)).toBeGreaterThan(walls);
      expect(loss(share)).toBeLessThan(walls + 2.5);
    }
  });

  it("are still told by their distance when no dimension is stated", () => {
    const found = flutterIn(heard(bare(0.1, "left", "right"), [3.4, 1.9, 1.3]), []);
    expect(found?.axes).toEqual([]);
    expect(Math.abs(found!.distanceM - SIZE[1])).toBeLessThan(0.03);
  });
});

describe("No flutter is told", () => {
  it("in diffuse decays: noise under an envelope, 80 realisations, 0.2 to 1 s", () => {
    for (let seed = 1; seed <= 80; seed++) {
      const samples = new Random(seed).fillNormal(new Float64Array(RATE));
      for (let n = 0; n < samples.length; n++) samples[n]! *= 0.05 * 10 ** ((-3 * n) / RATE / (0.19 + 0.01 * seed));
      samples[0] = 1;
      expect(findFlutter({ ...impulseOf(withNoise(samples), RATE), sweptHz: [20, 20_000] }), `seed ${seed}`).toBeNull();
    }
  });

  it("in a room whose walls scatter: echoes at random instants, as dense as a room's images", () => {
    for (let seed = 1; seed <= 60; seed++) {
      const chance = new Random(seed);
      const samples = new Float64Array(0.8 * RATE);
      samples[0] = 0.5;
      let t = 0;
      for (;;) {
        // Poisson arrivals of rate 4 pi c^3 t^2 / V: the cube of time grows by exponential steps.
        const step = (-3 * 81.4 * Math.log(1 - chance.uniform())) / (4 * Math.PI * 343 ** 3);
        t = Math.cbrt((t === 0 ? 0.006 ** 3 : t ** 3) + step);
        if (t > 0.5) break;
        const strength = (0.5 * 0.006 * 343 * 10 ** ((-3 * t) / 0.35)) / (343 * t);
        samples[Math.round(t * RATE)]! += chance.uniform() < 0.5 ? strength : -strength;
      }
      expect(findFlutter({ ...impulseOf(withNoise(samples), RATE), sweptHz: [20, 20_000] }), `seed ${seed}`).toBeNull();
    }
  });

  it("in rooms of which no two bare walls face each other", () => {
    const receivers = [
      [3.1, 2.3, 1.2],
      [3.4, 1.9, 1.3],
      [2.2, 2.9, 1.6],
    ] as const;
    for (const receiver of receivers) {
      expect(flutterIn(heard(bare(0.1, "left", "floor", "front"), receiver))).toBeNull();
      expect(flutterIn(heard(bare(0.1, "right", "ceiling", "rear"), receiver))).toBeNull();
      expect(flutterIn(heard(plainRoom(SIZE, 0.6), receiver))).toBeNull();
    }
  });

  it("in the treated studios of the simulation, the demo's among them", () => {
    for (const scenario of [demoStudio, cleanStudio(1), cleanStudio(2), dryStudio(1)]) {
      for (const { placement } of scenario.pairs) {
        const impulse = heard(scenario.room, scenario.positions[0]!.xyzM, placement.L);
        expect(flutterIn(impulse, scenario.room.sizeM)).toBeNull();
        expect(flutterIn(impulse, [])).toBeNull();
      }
    }
  });
});

if (!measuredPresent) it.skip("not run: measured responses in ../shared/data are absent");
else {
  it("A measured listening room after the recommendations has no flutter", () => {
    for (const name of ["M+000", "M+030", "M-030", "M+180", "U+030"]) {
      for (const ear of [0, 1]) {
        const { samples } = measuredResponse(`listening-room/LR_${name}.wav#${ear}`);
        expect(flutterIn(arrived(Float64Array.from(samples)), []), name).toBeNull();
      }
    }
  });
}
