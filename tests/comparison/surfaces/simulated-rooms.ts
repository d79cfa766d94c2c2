import { mirrorPaths, type MirrorPath } from "../../../src/geometry/mirror-paths.js";
import type { Point } from "../../../src/geometry/point.js";
import { faces } from "../../../src/geometry/surfaces.js";
import { findArrival } from "../../../src/impulse/arrival.js";
import { arrivalEnvelope } from "../../../src/metrics/reflections/energy-time.js";
import { findReflections } from "../../../src/metrics/reflections/find-reflections.js";
import type { Reflection } from "../../../src/model.js";
import { Random } from "../../../src/simulate/random.js";
import type { ShoeboxRoom } from "../../../src/simulate/room/room-path.js";
import { roomImpulse } from "../../../src/simulate/room.js";
import { alike } from "../../simulate/test-rooms.js";

const RATE = 48_000;

/** What a microphone hears of an omnidirectional loudspeaker in a room: the early reflections as the program lists them. */
export function heardReflections(room: ShoeboxRoom, source: Point, receiver: Point): Reflection[] {
  const quiet = new Float64Array(Math.round(0.05 * RATE));
  const answer = roomImpulse({ room, source: { xyzM: source }, receiverM: receiver }, RATE, 0.12);
  const samples = Float64Array.from([...quiet, ...answer]);
  const arrival = findArrival(samples, RATE, [quiet.length, quiet.length + 0.03 * RATE])!;
  const impulse = {
    ...{ samples, sampleRate: RATE, arrivalSample: arrival.lagSamples, polarity: 1 as const },
    ...{ sweptHz: [20, 20_000] as const, noise: null },
  };
  return findReflections(arrivalEnvelope(impulse), room.soundSpeedMPerS);
}

/** Every wall keeps between so much of the energy, at all frequencies alike. */
export function someRoom(random: Random, least: number, most: number): ShoeboxRoom {
  const between = (from: number, to: number): number => from + (to - from) * random.uniform();
  const wall = () => alike(between(least, most));
  return {
    sizeM: [between(4.5, 7.5), between(3.6, 5.6), between(2.4, 3.4)],
    absorption: { front: wall(), rear: wall(), left: wall(), right: wall(), floor: wall(), ceiling: wall() },
    soundSpeedMPerS: 343,
    leakHz: 0,
  };
}

export function moved(at: Point, sigmaM: number, random: Random): Point {
  const errors = random.fillNormal(new Float64Array(4));
  return [at[0] + sigmaM * errors[0]!, at[1] + sigmaM * errors[1]!, at[2] + sigmaM * errors[2]!];
}

export function pathsIn(room: ShoeboxRoom, source: Point, receiver: Point): MirrorPath[] {
  const [lengthM, widthM, heightM] = room.sizeM;
  return mirrorPaths(source, receiver, faces({ lengthM, widthM, heightM }));
}
