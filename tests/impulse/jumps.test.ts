import { describe, expect, it } from "vitest";
import { excitationFromRecipe } from "../../src/impulse/excitation.js";
import { findJumps, type Jump } from "../../src/impulse/jumps.js";
import type { Residual } from "../../src/impulse/residual.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { whiteNoise } from "../known-recording.js";

const recipe = makeSweepRecipe({ durationS: 4 });
const excitation = excitationFromRecipe(recipe);
const RATE = recipe.sampleRate;
const LEAD = RATE;

/** The sweep itself behind a second of silence, noise 80 dB under full scale. */
function recorded(): Float64Array {
  const played = excitation.samples();
  const samples = whiteNoise(LEAD + played.length + RATE, 5).map((value) => 1e-4 * value);
  for (let n = 0; n < played.length; n++) samples[LEAD + n]! += played[n]!;
  return samples;
}

const whole = recorded();

/** Sample at which the sweep passes a frequency. */
const passes = (hz: number): number =>
  Math.round(LEAD + excitation.zeroSample + recipe.growthS * RATE * Math.log(hz / recipe.startHz));

/**
 * @param at - what a response explains on both sides of a break it does not explain within 3 ms of it; elsewhere the noise is left
 */
function jumpsOf(samples: Float64Array, at: number): Jump[] {
  const left = whiteNoise(samples.length, 9).map((value) => 1e-4 * value);
  const reach = 0.003 * RATE;
  for (let n = Math.max(0, Math.ceil(at - reach)); n < at + reach; n++) {
    left[n]! += (samples[n]! - whole[n]!) * Math.cos((Math.PI * (n - at)) / (2 * reach)) ** 2;
  }
  const residual: Residual = {
    blockS: 0.1,
    startS: LEAD / RATE,
    bandHz: [],
    noiseDb: new Float64Array(0),
    excessDb: [],
    unexplained: { samples: left.subarray(LEAD), sampleRate: RATE },
  };
  return findJumps({ samples, sampleRate: RATE }, residual, excitation, 0);
}

function without(at: number, count: number): Float64Array {
  const samples = whole.slice();
  samples.copyWithin(at, at + count);
  return samples.subarray(0, samples.length - count);
}

describe("a recorded sweep", () => {
  it("breaks off nowhere when nothing is missing", () => {
    expect(jumpsOf(whole, 0)).toEqual([]);
  });

  it.each([
    [64, 350],
    [480, 2000],
  ])("breaks off for good where %d samples are missing at %d Hz", (count, hz) => {
    const at = passes(hz);
    const [jump] = jumpsOf(without(at, count), at).filter(({ persists }) => persists);
    // The first sample that cannot be predicted, give or take the next.
    expect(Math.abs(jump!.sample - at)).toBeLessThanOrEqual(2);
  });

  it("goes on as it would have where a spark was added for a moment", () => {
    const samples = whole.slice();
    const at = passes(1000);
    for (let n = 0; n < 4; n++) samples[at + n]! += 0.05 * (-1) ** n;
    const jumps = jumpsOf(samples, at);
    expect(jumps).toHaveLength(1);
    expect(jumps[0]!.persists).toBe(false);
    expect(Math.abs(jumps[0]!.sample - at)).toBeLessThanOrEqual(2);
  });

  it("does not break off where a sound swells in a millisecond, as all that goes through air does", () => {
    const samples = whole.slice();
    const at = passes(1000);
    for (let n = 0; n < 4800; n++) {
      samples[at + n]! +=
        0.05 * (1 - Math.exp(-n / 48)) * Math.exp(-n / 1000) * Math.sin((2 * Math.PI * 150 * n) / RATE);
    }
    expect(jumpsOf(samples, at)).toEqual([]);
  });
});
