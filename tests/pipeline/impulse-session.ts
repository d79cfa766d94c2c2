import { createHash } from "node:crypto";
import { findArrival } from "../../src/impulse/arrival.js";
import type { ImpulseResponse, Recording, Results } from "../../src/model.js";
import { analyse, labourHere, prepareInputs, type SessionFiles } from "../../src/pipeline.js";
import type { Take } from "../../src/pipeline/capture.js";
import { sessionSchema } from "../../src/schema/session.js";
import { monitorFilter } from "../../src/simulate/monitor/monitor-filter.js";
import { Random } from "../../src/simulate/random.js";
import { roomImpulse } from "../../src/simulate/room.js";
import type { Scenario } from "../../src/simulate/scenario.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { recipeFile } from "./in-memory-session.js";

/**
 * Sessions from impulse responses: what a room and a monitor answer, and noise added as the deconvolution would leave it. A
 * tenth of the cost of playing, recording and dividing a sweep; `tests/scripts/compare-pairs.mjs` goes the whole way.
 */

const RATE = 48_000;
/** Room for what a filter answers before the arrival, and for the steady-state window. */
const BEFORE_S = 0.8;
const SWEPT_HZ = [20, 20_000] as const;
const recipe = makeSweepRecipe({ durationS: 2.4 });
const channels = ["L", "R"] as const;

export interface Answers {
  /** By "pair channel": shape `[n]`, without noise. */
  readonly responses: ReadonlyMap<string, Float64Array>;
  readonly scenario: Scenario;
}

/** What every monitor of a scenario answers at its mix position. */
export function answersOf(scenario: Scenario): Answers {
  const mix = scenario.positions[0]!;
  const responses = new Map<string, Float64Array>();
  for (const pair of scenario.pairs) {
    for (const channel of channels) {
      const source = { xyzM: pair.placement[channel], aimM: mix.statedM ?? mix.xyzM, directivity: pair.directivity };
      const room = roomImpulse({ room: scenario.room, source, receiverM: mix.xyzM }, RATE, scenario.responseS);
      const heard = monitorFilter(room, RATE, pair.monitors[channel], 0);
      const samples = new Float64Array(Math.round(BEFORE_S * RATE) + heard.length);
      samples.set(heard, Math.round(BEFORE_S * RATE));
      responses.set(`${pair.id} ${channel}`, samples);
    }
  }
  return { responses, scenario };
}

/** White in the response, as pink noise is after division by an exponential sweep: its root mean square. */
const NOISE = 3e-6;

/** Measures a session: the answers, with noise of their own each time. */
export async function impulseSession({ responses, scenario }: Answers, seed: number, noise = NOISE): Promise<Results> {
  const random = new Random(seed);
  const session = sessionSchema.parse({
    schema: "carrywell/session/1",
    sweep: "sweep.json",
    room: { volumeM3: scenario.room.sizeM.reduce((a, b) => a * b) },
    microphone: { gainFixed: true },
    monitors: scenario.pairs.map(({ id, role }) => ({ id, role })),
    positions: [{ id: "mix", kind: "mix" }],
    recordings: scenario.pairs.map(({ id }) => ({ file: `${id}.wav`, monitor: id, position: "mix" })),
  });
  const inputs = await prepareInputs(session, files);
  const labour = labourHere(inputs);
  const { results } = await analyse(session, files, {
    version: "0",
    labour: {
      ...labour,
      capture: (recording) =>
        Promise.resolve({
          takes: channels.map((channel) => take(recording, channel, responses, random, noise)),
          findings: [],
          files: [],
        }),
    },
  });
  return results;
}

function take(
  recording: Recording,
  channel: "L" | "R",
  responses: Answers["responses"],
  random: Random,
  noise: number,
): Take {
  const clean = responses.get(`${recording.monitor} ${channel}`)!;
  const errors = random.fillNormal(new Float64Array(clean.length));
  const samples = clean.map((value, n) => value + noise * errors[n]!);
  const from = BEFORE_S * RATE;
  const arrival = findArrival(samples, RATE, [from, from + 0.05 * RATE])!;
  const perSecond = noise ** 2 * RATE;
  const impulse: ImpulseResponse = {
    samples,
    sampleRate: RATE,
    arrivalSample: arrival.lagSamples,
    polarity: arrival.polarity,
    sweptHz: SWEPT_HZ,
    noise: { frequencyHz: Float64Array.of(10, RATE / 2), powerPerSecond: Float64Array.of(perSecond, perSecond) },
  };
  return {
    ...{ recording, channel, impulse, harmonics: [], noise: null, arrivalInFileS: null, arrivalPlayedS: null },
    ...{ arrivalUncertaintyS: 1e-6, flightS: null, drift: null, playedAtS: 0, levelDbfs: null, peakDbfs: -6 },
    ...{ clippedSamples: 0, signalToNoiseDb: 60, residual: null, pushes: null, disturbedHz: [] },
    fingerprint: { sampleRate: RATE, noise: null, rms: 0, exact: recording.file },
  };
}

const files: SessionFiles = {
  read: () => Promise.resolve(recipeFile(recipe)),
  open: () => Promise.reject(new RangeError("nothing is opened here")),
  sha256: () => {
    const hash = createHash("sha256");
    return { add: (bytes) => void hash.update(bytes), hex: () => hash.digest("hex") };
  },
};
