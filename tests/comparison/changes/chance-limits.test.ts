import { describe, expect, it } from "vitest";
import { chanceLimits, isSharp, type Judgeable, MOST_CHANCE } from "../../../src/comparison/changes/chance-limits.js";
import { judge } from "../../../src/comparison/changes/judge.js";
import type { Reading } from "../../../src/comparison/changes/reading.js";
import { normalTail } from "../../../src/dsp/normal-tail.js";
import { Random } from "../../../src/simulate/random.js";
import type { JustNoticeable } from "../../../src/standards/just-noticeable.js";

const ONE: JustNoticeable = { value: 1, unit: "dB", lent: false, source: "a test" };

function reading(after: number, uncertainty: number): Reading {
  const goal = { name: "nothing", before: 10, after: 10 - after };
  const place = { quantity: "levelDb", bandHz: 100, fraction: 3, atS: null, unit: "dB" } as const;
  return { ...place, before: 0, after, uncertainty, justNoticeable: ONE, goal, reason: null };
}

const normal = (random: Random): number => random.fillNormal(new Float64Array(1))[0]!;

/** As many quantities as a session of two monitors at one place has, sharp and blunt, with uncertainties from 0.05 to 3. */
function quantities(random: Random, count: number): number[] {
  return Array.from({ length: count }, () => 0.05 * 60 ** random.uniform());
}

/** Verdicts of those that are larger than what is needed; the others are not real whatever they are. */
function realOnes(readings: readonly Reading[]) {
  const limits = chanceLimits(readings.map(held));
  return readings
    .filter((one) => Math.abs(one.after!) > limits.needed(held(one)))
    .map((one) => judge(one, limits).verdict);
}

function held({ uncertainty }: Reading): Judgeable {
  return { uncertainty: uncertainty!, justNoticeable: ONE.value };
}

describe("A thousand quantities of a room that has not changed", () => {
  it("show any better or worse in at most 5 of 100 pairs, though every error is as large as it is stated", () => {
    const random = new Random(20_260_618);
    let told = 0;
    for (let pair = 0; pair < 100; pair++) {
      const errors = random.fillNormal(new Float64Array(1000));
      const readings = quantities(random, 1000).map((u, n) => reading(u * errors[n]!, u));
      if (realOnes(readings).some((verdict) => verdict === "better" || verdict === "worse")) told++;
    }
    expect(told).toBeLessThanOrEqual(5);
  });

  it("would show something in nearly every pair if each were held against twice its own uncertainty", () => {
    const random = new Random(3);
    let told = 0;
    for (let pair = 0; pair < 100; pair++) {
      const found = quantities(random, 1000).some((u) => {
        const difference = Math.abs(u * normal(random));
        return difference > Math.max(2 * u, ONE.value);
      });
      if (found) told++;
    }
    expect(told).toBeGreaterThan(95);
  });

  it("are held to limits whose chances sum to what is allowed", () => {
    const judged: Judgeable[] = quantities(new Random(9), 1000).map((uncertainty) => ({
      uncertainty,
      justNoticeable: 1,
    }));
    const limits = chanceLimits(judged);
    const sum = judged.reduce((all, one) => all + normalTail(limits.needed(one) / one.uncertainty), 0);
    expect(sum).toBeCloseTo(limits.expected, 9);
    expect(sum).toBeLessThanOrEqual(MOST_CHANCE * (1 + 1e-6));
    // What is allowed is used: limits larger than that would miss real changes.
    expect(sum).toBeGreaterThan(0.99 * MOST_CHANCE);
  });
});

describe("A true change of one and a half just noticeable differences", () => {
  const TRIALS = 2000;

  /** Shares of trials by verdict, among a thousand other quantities that have not changed. */
  function shares(uncertainty: number, seed: number): { real: number; open: number } {
    const random = new Random(seed);
    const others = quantities(random, 1000).map((u) => ({ uncertainty: u, justNoticeable: 1 }));
    const limits = chanceLimits([...others, { uncertainty, justNoticeable: 1 }]);
    const found = { real: 0, none: 0, "cannot-tell": 0 };
    for (let n = 0; n < TRIALS; n++) {
      found[judge(reading(1.5 + uncertainty * normal(random), uncertainty), limits).change] += 1 / TRIALS;
    }
    return { real: found.real, open: found["cannot-tell"] };
  }

  // Three standard deviations of a share of 0.95 over so many trials.
  const chance = 3 * Math.sqrt((0.95 * 0.05) / TRIALS);

  it.each([0.02, 0.1, 0.2, 0.25])("is recognised where the standard uncertainty is %d of one", (uncertainty) => {
    expect(shares(uncertainty, 1).real).toBeGreaterThan(0.95);
  });

  it("is recognised 95 times in a hundred at the last of what counts as sharp, 0.3, if few are judged", () => {
    const random = new Random(2);
    const limits = chanceLimits([{ uncertainty: 0.3, justNoticeable: 1 }]);
    let real = 0;
    for (let n = 0; n < TRIALS; n++) {
      if (judge(reading(1.5 + 0.3 * normal(random), 0.3), limits).verdict === "better") real += 1 / TRIALS;
    }
    // By the normal distribution 0.9522: more than one, of 1.5 with a deviation of 0.3.
    expect(Math.abs(real - 0.9522)).toBeLessThan(chance);
  });

  it.each([0.301, 0.35, 0.5, 0.7, 1, 2, 4])("cannot be told where it is %d of one", (uncertainty) => {
    expect(shares(uncertainty, 4).open).toBeGreaterThan(0.95);
  });
});

describe("A large change", () => {
  it("is told however blunt the measurement, once it clears what is needed", () => {
    const limits = chanceLimits(quantities(new Random(8), 1000).map((u) => ({ uncertainty: u, justNoticeable: 1 })));
    for (const uncertainty of [0.5, 1, 3]) {
      const needed = limits.needed({ uncertainty, justNoticeable: 1 });
      expect(judge(reading(1.001 * needed, uncertainty), limits).verdict).toBe("better");
      expect(judge(reading(0.999 * needed, uncertainty), limits).verdict).toBe("cannot-tell");
    }
  });
});

it("many sharp measurements at the edge of sharpness are held to more than the just noticeable difference", () => {
  const edge: Judgeable = { uncertainty: 0.3, justNoticeable: 1 };
  expect(isSharp(edge)).toBe(true);
  expect(chanceLimits([edge]).needed(edge)).toBe(1);
  const many = chanceLimits(Array.from({ length: 500 }, () => edge));
  expect(many.sharpCoverage).toBeGreaterThan(1 / 0.3);
  expect(many.needed(edge)).toBeCloseTo(0.3 * many.sharpCoverage, 9);
});
