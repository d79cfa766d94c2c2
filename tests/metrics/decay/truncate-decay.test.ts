import { expect, it } from "vitest";
import { truncateDecay } from "../../../src/metrics/decay/truncate-decay.js";
import { Random } from "../../../src/simulate/random.js";

const STEP_S = 0.001;

/** Energy per step of an exponential decay of `timeS` over a floor, each with the scatter of noise in `values` per step. */
function decay(timeS: number, floorDb: number, seconds: number, scatter: Random | null): Float64Array {
  return Float64Array.from({ length: Math.round(seconds / STEP_S) }, (_, n) => {
    const level = 10 ** ((-6 * n * STEP_S) / timeS) + 10 ** (floorDb / 10);
    return level * (scatter ? -Math.log(1 - scatter.uniform()) : 1);
  });
}

it("a smooth decay is cut where it meets the noise", () => {
  for (const floorDb of [-30, -50, -70]) {
    const found = truncateDecay(decay(0.6, floorDb, 2, null), 1)!;
    // The line's own level is the noise's there: the knee lies at 0.6 s per 60 dB; a round of the search stops at 0.1 dB.
    expect(found.steps * STEP_S).toBeCloseTo((0.6 * -floorDb) / 60, 2);
    expect(10 * Math.log10(found.noise)).toBeCloseTo(floorDb, 1);
    expect((found.fallDb / STEP_S) * 0.6).toBeCloseTo(60, 0);
  }
});

it("a decay that goes on to the end of the record is cut there, with nothing taken for noise", () => {
  const energy = decay(1, -300, 0.7, null);
  const found = truncateDecay(energy, 1)!;
  expect(found.noise).toBe(0);
  expect(found.steps).toBe(energy.length);
  const ratio = 10 ** (-6 * STEP_S);
  // The energy lost is a geometric series; the slope settles within 1e-3.
  expect(found.tailEnergy / (10 ** (-6 * 0.7) / (1 - ratio))).toBeCloseTo(1, 2);
});

it("a decay that ends in numerical nothing is cut 90 dB down", () => {
  const found = truncateDecay(decay(0.3, -310, 2, null), 1)!;
  expect(found.noise).toBe(0);
  // 90 dB of energy still to come, to a step of 0.2 dB.
  expect((found.steps * STEP_S * 60) / 0.3).toBeCloseTo(90, 0);
});

it("a decay that is faded out before the end is cut where it vanishes", () => {
  const energy = decay(1, -300, 2, null);
  energy.fill(1e-9, 600);
  const found = truncateDecay(energy, 1)!;
  // It vanishes at 36 dB; looked at in stretches of 2 dB, 33 steps.
  expect(found.steps).toBeGreaterThan(600 - 34);
  expect(found.steps).toBeLessThan(600 + 34);
});

it("with the scatter of noise the knee is found within 4 dB in 99 of 100 realisations", () => {
  const random = new Random(11);
  let missed = 0;
  for (let n = 0; n < 100; n++) {
    const found = truncateDecay(decay(0.6, -50, 2, random), 1)!;
    if (Math.abs((found.steps * STEP_S * 60) / 0.6 - 50) > 4) missed++;
  }
  // Late fits of 20 dB hold 200 independent values: about 0.4 dB on the line's level, 0.2 dB on the noise, extrapolated by 8 dB.
  expect(missed).toBeLessThanOrEqual(1);
});

it("in silence and in steady noise there is no decay", () => {
  expect(truncateDecay(new Float64Array(1000), 1)).toBeNull();
  const random = new Random(3);
  expect(
    truncateDecay(
      Float64Array.from({ length: 1000 }, () => random.uniform()),
      1,
    ),
  ).toBeNull();
});
