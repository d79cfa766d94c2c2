import { predictModes } from "../../../src/geometry/room-modes.js";
import { type LowResponse, lowResponse } from "../../../src/metrics/modes/low-response.js";
import { monitorFilter } from "../../../src/simulate/monitor/monitor-filter.js";
import { Random } from "../../../src/simulate/random.js";
import { type Point } from "../../../src/simulate/room/room-path.js";
import { roomImpulse } from "../../../src/simulate/room.js";
import { plainRoom } from "../../simulate/test-rooms.js";

/** The room of the reference page's table: 35 modes up to 120 Hz. */
const SIZE_M: Point = [7, 5, 3];
const SPEED = 343;
const RATE = 2000;
const LENGTH_S = 2.6;
/** A loudspeaker that ends at 45 Hz, fourth order: at 24.5 Hz it is 21 dB down. */
const rolledOff = { lowRollOff: { frequencyHz: 45, order: 4 } } as const;
/** RMS, re the largest sample: white up to 1 kHz. */
const NOISE_DB = -60;

/** A pair of loudspeakers, heard at the mix position, at two places beside it and at the back of the room. */
const sources: readonly Point[] = [
  [0.7, 0.9, 1.1],
  [0.7, 4.2, 1.1],
];
const places: readonly Point[] = [
  [2.9, 2.3, 1.2],
  [2.75, 2.3, 1.2],
  [2.9, 2.6, 1.25],
  [5.3, 1.2, 1.6],
];

/** A mode of known truth in a room. */
export interface RoomMode {
  readonly order: readonly number[];
  readonly frequencyHz: number;
  readonly t60S: number;
}

/** A room's truth, and what eight recordings give of it: the left loudspeaker's first. */
export interface KnownRoom {
  readonly modes: readonly RoomMode[];
  readonly responses: readonly LowResponse[];
}

/**
 * A room as the sum of its modes, in closed form, each with a decay of its own; axial ones ring longest.
 *
 * A source of constant volume acceleration, as a loudspeaker above its resonance is. Source: P. M. Morse, K. U. Ingard, Theoretical
 * Acoustics (1968), 9.5, from memory. Nothing is borrowed from mirror images.
 */
export function roomOfModes(timesS: Readonly<Record<"axial" | "tangential" | "oblique", number>>): KnownRoom {
  const random = new Random(7);
  const modes = predictModes(SIZE_M, SPEED, 420).map(({ order, kind, frequencyHz }) => {
    const t60S = timesS[kind] * (0.85 + 0.3 * random.uniform());
    // What rings is the damped mode, a little lower: some hundredths of a hertz.
    const perS = Math.log(1000) / t60S;
    return { order, t60S, frequencyHz: Math.sqrt(frequencyHz ** 2 - (perS / (2 * Math.PI)) ** 2) };
  });
  return { modes, responses: everyWay((source, place) => modalSum(modes, source, place)) };
}

function modalSum(modes: readonly RoomMode[], source: Point, place: Point): Float64Array {
  const samples = new Float64Array(Math.round(LENGTH_S * RATE));
  for (const { order, frequencyHz, t60S } of modes) {
    const shape = order.map((halfWaves, axis) => {
      const turn = (halfWaves * Math.PI) / SIZE_M[axis]!;
      return (halfWaves > 0 ? 2 : 1) * Math.cos(turn * source[axis]!) * Math.cos(turn * place[axis]!);
    });
    const strength = shape.reduce((product, factor) => product * factor, 1) / frequencyHz;
    for (let n = 0; n < samples.length; n++) {
      const timeS = n / RATE;
      const level = Math.exp((-Math.log(1000) * timeS) / t60S);
      samples[n]! += strength * level * Math.sin(2 * Math.PI * frequencyHz * timeS);
    }
  }
  return samples;
}

/**
 * The same room by mirror images, each wall keeping one share of the energy at all angles.
 *
 * Such walls do not let a mode decay as one exponential, so the decay is that of the middle of a mode's angles: only the
 * frequencies are exact.
 */
export function roomOfImages(share: number): KnownRoom {
  const modes = predictModes(SIZE_M, SPEED, 420).map(({ order, frequencyHz }) => {
    // Along an axis sound travels c times its share of the direction, and meets a wall each length.
    const hits = order.map((halfWaves, axis) => {
      const alongHz = (halfWaves * SPEED) / 2 / SIZE_M[axis]!;
      return (SPEED * alongHz) / frequencyHz / SIZE_M[axis]!;
    });
    const dbPerS = hits.reduce((sum, one) => sum + one, 0) * -10 * Math.log10(1 - share);
    return { order, frequencyHz, t60S: 60 / dbPerS };
  });
  const room = { ...plainRoom(SIZE_M, share), leakHz: 5 };
  const responses = everyWay((source, place) =>
    roomImpulse({ room, source: { xyzM: source }, receiverM: place }, RATE, LENGTH_S),
  );
  return { modes, responses };
}

function everyWay(response: (source: Point, place: Point) => Float64Array): LowResponse[] {
  return sources.flatMap((source, s) =>
    places.map((place, p) => {
      const clean = monitorFilter(response(source, place), RATE, rolledOff, 0);
      const noise = clean.reduce((most, value) => Math.max(most, Math.abs(value)), 0) * 10 ** (NOISE_DB / 20);
      const samples = new Random(1 + 10 * s + p)
        .fillNormal(new Float64Array(clean.length))
        .map((value, n) => clean[n]! + noise * value);
      return lowResponse({
        samples,
        sampleRate: RATE,
        arrivalSample: (Math.hypot(...source.map((at, axis) => at - place[axis]!)) / SPEED) * RATE,
        polarity: 1,
        sweptHz: [15, 900],
        // Of white noise: the variance times the rate.
        noise: {
          frequencyHz: Float64Array.of(1, RATE / 2),
          powerPerSecond: new Float64Array(2).fill(noise * noise * RATE),
        },
      });
    }),
  );
}
