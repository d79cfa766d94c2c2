import { describe, expect, it } from "vitest";
import { forwardReal, inverseReal, transformSize } from "../../src/dsp/fft.js";
import { compareSessions } from "../../src/pipeline/compare-sessions.js";
import type { Results } from "../../src/model.js";
import type { ChangedQuantity, Changes } from "../../src/schema/changes.js";
import { demoStudio } from "../../src/simulate/demo-studio.js";
import { Random } from "../../src/simulate/random.js";
import type { Scenario } from "../../src/simulate/scenario.js";
import { bandEdges, THIRD_OCTAVES } from "../../src/standards/iec61260.js";
import { type Answers, answersOf, impulseSession } from "./impulse-session.js";

/** As many as are asked for: CARRYWELL_PAIRS=100 takes some twenty minutes. */
const PAIRS = Number(process.env["CARRYWELL_PAIRS"] ?? 2);
const PLACEMENT_M = 0.02;
/** Standard deviations along one direction that hold 95 % in three. */
const RADIUS_95 = 2.795;

/** The demo's mains alone, at a microphone that was put up anew. */
function setUp(random: Random, placementM: number, room = demoStudio.room): Answers {
  const [mix] = demoStudio.positions;
  const off = random.fillNormal(new Float64Array(3));
  const xyzM = mix!.xyzM.map((metres, axis) => metres + (off[axis]! * placementM) / RADIUS_95) as [
    number,
    number,
    number,
  ];
  const pairs = demoStudio.pairs.filter(({ id }) => id === "mains");
  return answersOf({ ...demoStudio, room, pairs, positions: [{ ...mix!, statedM: mix!.xyzM, xyzM }] });
}

/** Sessions before, by placement and number: trials of one placement share them. */
const sessions = new Map<string, Promise<Results>>();
const random = new Random(11);
const untouched = setUp(new Random(1), 0);

function before({ placementM, start, name }: Trial, n: number): Promise<Results> {
  const key = `${String(placementM)} ${String(n)} ${start ? name : ""}`;
  const answers = (): Answers => (start ? changed(placed(placementM), start) : placed(placementM));
  const known = sessions.get(key) ?? impulseSession(answers(), 2 * n + 1);
  sessions.set(key, known);
  return known;
}

function placed(placementM: number): Answers {
  return placementM === 0 ? untouched : setUp(random, placementM);
}

/** Every response of a session as something has changed it. */
function changed(answers: Answers, change: (samples: Float64Array) => Float64Array): Answers {
  return { ...answers, responses: new Map([...answers.responses].map(([name, samples]) => [name, change(samples)])) };
}

function compare(before: Results, after: Results, placementM: number): Changes {
  return compareSessions(before, after, { placementM, monitors: null, version: "0" });
}

function real(changes: Changes): string[] {
  return changes.pairs.flatMap(({ id, quantities }) =>
    quantities
      .filter(({ change }) => change === "real")
      .map(({ quantity, bandHz, because }) => `${id} ${quantity} ${String(bandHz)}: ${because}`),
  );
}

/** Walls that keep between half and all of what the demo's keep. */
function livelier(random: Random): Scenario["room"] {
  const share = 0.5 + 0.5 * random.uniform();
  const { absorption } = demoStudio.room;
  const entries = Object.entries(absorption).map(([wall, octaves]) => [wall, octaves.map((one) => share * one)]);
  return { ...demoStudio.room, absorption: Object.fromEntries(entries) as typeof absorption };
}

describe("The same room measured twice, the microphone put back on its mark", () => {
  it(`shows nothing that has changed in ${String(PAIRS)} pairs`, { timeout: 60_000 * PAIRS }, async () => {
    const random = new Random(20_260_618);
    const told: string[][] = [];
    for (let n = 0; n < PAIRS; n++) {
      const room = livelier(random);
      const session = async (seed: number) => impulseSession(setUp(random, PLACEMENT_M, room), seed);
      told.push(real(compare(await session(2 * n + 1), await session(2 * n + 2), PLACEMENT_M)));
    }
    // At most 5 of 100 pairs may, and of fewer pairs none is likely to.
    const some = told.filter((list) => list.length > 0);
    if (PAIRS >= 100) console.log(`${String(some.length)} of ${String(PAIRS)} pairs show a change`, some);
    expect(some.length, JSON.stringify(some)).toBeLessThanOrEqual(0.05 * PAIRS);
  });
});

/** Bands between the edges of one, so much louder. */
function louder(nominalHz: number, gainDb: number) {
  const band = THIRD_OCTAVES.find((one) => one.nominalHz === nominalHz)!;
  const [fromHz, toHz] = bandEdges({ fraction: 3, exactHz: band.exactHz });
  return (samples: Float64Array): Float64Array => {
    const size = transformSize(samples.length);
    const spectrum = forwardReal(samples, size);
    const gain = 10 ** (gainDb / 20);
    for (let k = 0; k <= size / 2; k++) {
      const hz = (k * 48_000) / size;
      if (hz < fromHz || hz >= toHz) continue;
      spectrum[2 * k]! *= gain;
      spectrum[2 * k + 1]! *= gain;
    }
    return inverseReal(spectrum).slice(0, samples.length);
  };
}

/** What comes later than a time after the arrival, so much quieter. */
function drier(afterS: number, gainDb: number) {
  return (samples: Float64Array): Float64Array => {
    const peak = samples.reduce((best, value, n) => (Math.abs(value) > Math.abs(samples[best]!) ? n : best), 0);
    const gain = 10 ** (gainDb / 20);
    return samples.map((value, n) => (n > peak + afterS * 48_000 ? gain * value : value));
  };
}

/** In place of every room one whose sound dies away evenly, of the same peak and place: another noise for each response. */
function dyingAway(timeS: number) {
  return (samples: Float64Array): Float64Array => {
    const peak = samples.reduce((best, value, n) => (Math.abs(value) > Math.abs(samples[best]!) ? n : best), 0);
    const noise = new Random(Math.round(1e9 * Math.abs(samples[peak]!))).fillNormal(new Float64Array(samples.length));
    return samples.map((_, n) =>
      n < peak ? 0 : 0.3 * samples[peak]! * noise[n]! * 10 ** ((-60 * (n - peak)) / 48_000 / timeS / 20),
    );
  };
}

interface Trial {
  readonly name: string;
  readonly quantity: string;
  readonly bandHz: number;
  readonly fraction: 1 | 3;
  readonly placementM: number;
  /** What the room is before; the demo's own by default. */
  readonly start?: (samples: Float64Array) => Float64Array;
  readonly change: (samples: Float64Array) => Float64Array;
  readonly sharp: boolean;
}

/** One and a half times what is just noticed, each. */
const trials: Trial[] = [
  {
    name: "2.25 dB at 100 Hz, the microphone put back",
    ...{ quantity: "levelDb", bandHz: 100, fraction: 3, placementM: PLACEMENT_M, sharp: true },
    change: louder(100, 2.25),
  },
  {
    name: "2.25 dB at 8 kHz, the microphone not touched",
    ...{ quantity: "levelDb", bandHz: 8000, fraction: 3, placementM: 0, sharp: true },
    change: louder(8000, 2.25),
  },
  {
    name: "1.5 dB of clarity at 1 kHz, the microphone not touched",
    ...{ quantity: "c80Db", bandHz: 1000, fraction: 1, placementM: 0, sharp: true },
    change: drier(0.08, -1.5),
  },
  {
    name: "2.25 dB at 8 kHz, the microphone put back within 8 cm",
    ...{ quantity: "levelDb", bandHz: 8000, fraction: 3, placementM: 0.08, sharp: false },
    change: louder(8000, 2.25),
  },
  {
    name: "a decay 7.5 % shorter at 1 kHz, the microphone not touched",
    ...{ quantity: "t30S", bandHz: 1000, fraction: 1, placementM: 0, sharp: false },
    // An even decay: of a bent one a change shows another part, and is read as more or less than it is.
    start: dyingAway(0.3),
    change: dyingAway(0.925 * 0.3),
  },
];

describe("A true change of one and a half just noticeable differences", () => {
  it.each(trials)("$name: as its uncertainty has it", { timeout: 60_000 * PAIRS }, async (trial) => {
    const { quantity, bandHz, fraction, placementM, change, sharp } = trial;
    const found: ChangedQuantity[] = [];
    for (let n = 0; n < PAIRS; n++) {
      const after = await impulseSession(changed(placed(placementM), change), 2 * n + 2);
      const { quantities } = compare(await before(trial, n), after, placementM).pairs.find(
        ({ id }) => id === "mains-L@mix",
      )!;
      found.push(
        quantities.find((one) => one.quantity === quantity && one.bandHz === bandHz && one.fraction === fraction)!,
      );
    }
    const count = (kind: ChangedQuantity["change"]): number => found.filter((one) => one.change === kind).length;
    const shares = found.map(({ uncertainty, justNoticeable }) => uncertainty! / 2 / justNoticeable!);
    if (PAIRS >= 100) {
      const sizes = found.map(({ difference, justNoticeable }) => difference! / justNoticeable!);
      const mean = sizes.reduce((sum, one) => sum + one, 0) / sizes.length;
      console.log(
        trial.name,
        `u ${Math.min(...shares).toFixed(2)} to ${Math.max(...shares).toFixed(2)} of one;`,
        `mean change ${mean.toFixed(2)};`,
        `real ${String(count("real"))}, none ${String(count("none"))}, cannot tell ${String(count("cannot-tell"))}`,
      );
    }
    // The trial is one of the kind that it is meant to be.
    expect(shares.every((share) => share <= 0.3)).toBe(sharp);
    expect(count(sharp ? "real" : "cannot-tell")).toBeGreaterThanOrEqual(0.95 * PAIRS);
  });
});
