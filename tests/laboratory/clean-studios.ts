import type { Monitor } from "../../src/simulate/monitor.js";
import { Random } from "../../src/simulate/random.js";
import { rootMeanSquare } from "../../src/simulate/recording/noise.js";
import { longestStretch } from "../../src/simulate/recording.js";
import type { Octaves } from "../../src/simulate/room/octave-split.js";
import type { Point } from "../../src/simulate/room/room-path.js";
import type { Scenario } from "../../src/simulate/scenario.js";
import { recordSession, type SimulatedSession } from "../../src/simulate/session/record-session.js";
import { openStudio, type Reel } from "../../src/simulate/session/studio.js";
import { cleanStudio } from "../simulate/test-rooms.js";

export const STUDIOS = 20;
/** White noise under the recorded sweep, root mean square to root mean square. */
const NOISE_DB = [45, 80] as const;

/**
 * A studio in which nothing is wrong with the recording, whatever may be wrong with the room.
 *
 * From 29 to 100 m³ and from dry to live; two-way loudspeakers with their crossover from 1.4 to 3.4 kHz, which reach down to
 * 32 to 75 Hz and up to 15 to 22 kHz, more or less directed, and distort as loudspeakers do.
 *
 * @param seed - from 1 up
 */
function studioOf(seed: number): Scenario {
  const clean = cleanStudio(seed);
  const random = new Random(500 + seed);
  const between = (from: number, to: number): number => from + (to - from) * random.uniform();
  const sizeM = [between(3.9, 6.6), between(3.2, 5.2), between(2.3, 2.9)] as const;
  // Shares are of energy lost, below 1: a power above 1 makes the room livelier, below 1 drier.
  const power = between(0.75, 1.7);
  const absorption = Object.fromEntries(
    Object.entries(clean.room.absorption).map(([name, lost]) => [name, lost.map((share) => share ** power)]),
  ) as unknown as Scenario["room"]["absorption"];
  const monitor: Monitor = {
    lowRollOff: { frequencyHz: between(32, 75), order: random.uniform() < 0.5 ? 2 : 4 },
    highRollOff: { frequencyHz: between(15_000, 22_000), order: random.uniform() < 0.5 ? 2 : 4 },
    crossoversHz: [between(1400, 3400)],
    shapes: [{ kind: "highShelf", frequencyHz: 4000, gainDb: between(-4, 2) }],
    distortion: { second: between(0.005, 0.05), third: between(0.005, 0.1) },
  };
  const ear = between(1.05, 1.25);
  const seat = between(0.36, 0.42) * sizeM[0];
  const middle = sizeM[1] / 2 + between(-0.05, 0.05);
  const place = (x: number, y: number): Point => [x, y, ear];
  const beam = between(0, 1);
  return {
    ...clean,
    room: { ...clean.room, sizeM, absorption },
    pairs: clean.pairs.map((pair) => ({
      ...pair,
      placement: { L: place(seat - 1.2, middle - 0.7), R: place(seat - 1.2, middle + 0.7) },
      monitors: { L: monitor, R: monitor },
      directivity: pair.directivity.map((share) => beam * share) as unknown as Octaves,
    })),
    positions: [{ id: "mix", kind: "mix", xyzM: place(seat, middle), takes: 2 }],
  };
}

/** What one studio's session sounds like, and the level of its noise. */
export function cleanStudioSession(seed: number, reel: Reel): { session: SimulatedSession; noiseDb: number } {
  const studio = studioOf(seed);
  const open = openStudio(studio, reel);
  const noiseDb = NOISE_DB[0] + ((NOISE_DB[1] - NOISE_DB[0]) * (seed - 1)) / (STUDIOS - 1);
  const sweepRms = rootMeanSquare(open.sound("nears", "mix"), ...longestStretch(reel, reel.sampleRate));
  const { gainDb, clockDriftPpm, leadsS, tailS } = studio.recorder;
  const noise = { whiteDbRms: 20 * Math.log10(sweepRms) - noiseDb };
  const quiet = { ...studio, recorder: { gainDb, clockDriftPpm, leadsS, tailS, noise } };
  return { session: recordSession(quiet, reel, (pair, position) => open.sound(pair, position)), noiseDb };
}
