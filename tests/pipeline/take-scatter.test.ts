import { describe, expect, it } from "vitest";
import { onsetSample } from "../../src/impulse/onset.js";
import { bandMetrics } from "../../src/metrics/decay/band-metrics.js";
import type { BandMetrics, ImpulseResponse } from "../../src/model.js";
import { withTakeScatter } from "../../src/pipeline/take-scatter.js";
import { Random } from "../../src/simulate/random.js";
import { OCTAVES } from "../../src/standards/iec61260.js";

const RATE = 48_000;
const ARRIVAL = 4800;
const OCTAVE = OCTAVES.filter(({ nominalHz }) => nominalHz === 1000);

/** A direct sound with 96 % of the energy, and noise that falls by 60 dB in 0.5 s; the share of its amplitude that is this seed's own. */
function room(share: number, seed: number): ImpulseResponse {
  const [common, own] = [new Random(1), new Random(seed)].map((random) => random.fillNormal(new Float64Array(RATE)));
  const samples = new Float64Array(ARRIVAL + RATE);
  for (let n = 0; n < RATE; n++) {
    const value = Math.sqrt(1 - share ** 2) * common![n]! + share * own![n]!;
    samples[ARRIVAL + n] = 0.005 * value * 10 ** ((-3 * n) / (0.5 * RATE));
  }
  samples[ARRIVAL]! += 1;
  return { samples, sampleRate: RATE, arrivalSample: ARRIVAL, polarity: 1, sweptHz: [20, 20_000], noise: null };
}

function meanOf(takes: readonly ImpulseResponse[]): ImpulseResponse {
  const samples = takes[0]!.samples.map((_, n) =>
    takes.reduce((sum, take) => sum + take.samples[n]! / takes.length, 0),
  );
  return { ...takes[0]!, samples };
}

/** From where the direct sound begins, as takes are. */
function measured(impulse: ImpulseResponse): ReturnType<typeof bandMetrics>[number] {
  return bandMetrics({ ...impulse, arrivalSample: onsetSample(impulse) }, OCTAVE)[0]!;
}

function statedOf(takes: readonly ImpulseResponse[]): BandMetrics {
  return { ...measured(meanOf(takes)), levelDb: 0, levelUncertaintyDb: 0, noiseDb: null };
}

describe("the uncertainty of what is read off the mean of takes", () => {
  it("stays what it is for takes that are alike", () => {
    const takes = [room(0, 2), room(0, 3)];
    const stated = statedOf(takes);
    const [widened] = withTakeScatter([stated], takes);
    // Two roundings apart: the same numbers, added and halved.
    expect(widened!.c80UncertaintyDb).toBeCloseTo(stated.c80UncertaintyDb!, 9);
    expect(widened!.decayUncertaintyS).toBeCloseTo(stated.decayUncertaintyS!, 9);
  });

  it("holds what clarity gains by averaging late sound that no longer agrees: 10 lg 2 of strangers", () => {
    const takes = [room(1, 2), room(1, 3)];
    const stated = statedOf(takes);
    const [widened] = withTakeScatter([stated], takes);
    const own = takes.map((take) => measured(take).c80Db!);
    const gained = stated.c80Db! - (own[0]! + own[1]!) / 2;
    // A quarter of a second of late sound in an octave of 700 Hz: some 100 independent values, so 0.5 dB of chance in each.
    expect(Math.abs(gained - 3.01)).toBeLessThan(1);
    expect(2 * widened!.c80UncertaintyDb!).toBeGreaterThan(gained);
    expect(2 * stated.c80UncertaintyDb!).toBeLessThan(gained);
  });

  it("is not touched for one take", () => {
    const takes = [room(0, 2)];
    const stated = statedOf(takes);
    expect(withTakeScatter([stated], takes)).toEqual([stated]);
  });
});
