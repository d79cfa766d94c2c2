import { demoStudio } from "../../src/simulate/demo-studio.js";
import type { Monitor } from "../../src/simulate/monitor.js";
import { Random } from "../../src/simulate/random.js";
import type { Octaves } from "../../src/simulate/room/octave-split.js";
import type { Point, ShoeboxRoom } from "../../src/simulate/room/room-path.js";
import type { Scenario } from "../../src/simulate/scenario.js";

export function alike(value: number): Octaves {
  return [value, value, value, value, value, value, value, value];
}

/** A room without leaks or air losses whose walls all keep the same share at all frequencies, but for those named. */
export function plainRoom(
  sizeM: readonly [number, number, number],
  share: number,
  others: Partial<ShoeboxRoom["absorption"]> = {},
): ShoeboxRoom {
  const wall = alike(share);
  return {
    sizeM,
    absorption: { front: wall, rear: wall, left: wall, right: wall, floor: wall, ceiling: wall, ...others },
    soundSpeedMPerS: 343,
    leakHz: 0,
  };
}

const LISTENER_M = 2.2;
const WIDTH_M = 4.7;

/**
 * A studio in which nothing is wrong: a small control room with good treatment and flat nearfields that reach down to 34 Hz.
 *
 * Walls, loudspeakers and microphone are a little off their plan, as in any studio, and differently so with each seed: places by
 * up to 5 mm each way, the share that a wall keeps by up to 0.02. Then noise: NR 11 or less at the level of the recorder.
 */
export function cleanStudio(seed: number): Scenario {
  const random = new Random(seed);
  const about = (value: number, most: number): number => value + most * (2 * random.uniform() - 1);
  const place = (x: number, y: number, z: number): Point => [about(x, 0.005), about(y, 0.005), about(z, 0.005)];
  const wall = (...shares: Octaves): Octaves => shares.map((share) => about(share, 0.02)) as unknown as Octaves;
  const monitor: Monitor = {
    lowRollOff: { frequencyHz: 34, order: 4 },
    highRollOff: { frequencyHz: 22_000, order: 2 },
    crossoversHz: [2000],
    distortion: { second: 0.01, third: 0.02 },
  };
  const centre = WIDTH_M / 2;
  return {
    about: { title: "A clean studio", date: "2026-05-14", engineer: "nobody", notes: "Simulated." },
    roomName: "clean",
    room: {
      sizeM: [5.65, WIDTH_M, 2.7],
      absorption: {
        front: wall(0.51, 0.9, 0.34, 0.7, 0.52, 0.52, 0.39, 0.39),
        rear: wall(0.3, 0.3, 0.86, 0.51, 0.39, 0.39, 0.55, 0.55),
        left: wall(0.39, 0.57, 0.47, 0.9, 0.87, 0.87, 0.76, 0.76),
        right: wall(0.39, 0.57, 0.47, 0.9, 0.87, 0.87, 0.76, 0.76),
        floor: wall(0.1, 0.17, 0.51, 0.52, 0.9, 0.9, 0.9, 0.9),
        ceiling: wall(0.69, 0.42, 0.5, 0.91, 0.93, 0.93, 0.93, 0.93),
      },
      airDbPerM: demoStudio.room.airDbPerM!,
      soundSpeedMPerS: demoStudio.room.soundSpeedMPerS,
      leakHz: 5,
    },
    responseS: 0.6,
    temperatureC: 21,
    relativeHumidityPercent: 45,
    pairs: [
      {
        id: "nears",
        role: "nearfield",
        name: "Flat nearfields",
        placement: {
          L: place(LISTENER_M - 1.27, centre - 0.75, 1.16),
          R: place(LISTENER_M - 1.27, centre + 0.75, 1.16),
        },
        monitors: { L: monitor, R: monitor },
        directivity: [0, 0, 0.05, 0.15, 0.25, 0.35, 0.42, 0.45],
      },
    ],
    positions: [
      { id: "mix", kind: "mix", xyzM: place(LISTENER_M, centre, 1.16) },
      { id: "left", kind: "near", xyzM: place(LISTENER_M, centre - 0.15, 1.16) },
      { id: "right", kind: "near", xyzM: place(LISTENER_M, centre + 0.15, 1.16) },
    ],
    recorder: { ...demoStudio.recorder, gainDb: -2 },
    seed: 1000 * seed,
  };
}

/** The clean studio with so much more absorption, less of it in the bass, that T is about 0.15 s: dry, and not dull. */
export function dryStudio(seed: number): Scenario {
  const clean = cleanStudio(seed);
  const swallow = (shares: Octaves): Octaves =>
    shares.map((share, octave) => 1 - (1 - share) ** (octave < 2 ? 1.2 : 1.6)) as unknown as Octaves;
  const absorption = Object.fromEntries(
    Object.entries(clean.room.absorption).map(([name, shares]) => [name, swallow(shares)]),
  ) as Scenario["room"]["absorption"];
  return { ...clean, roomName: "dry", room: { ...clean.room, absorption } };
}

/** For these studios: as long as they need, and no longer. */
export const SHORT_SWEEP = { durationS: 2.4, leadS: 0.8, gapS: 0.7, tailS: 0.3 } as const;
