import { describe, expect, it } from "vitest";
import { excitationFromRecipe } from "../../src/impulse/excitation.js";
import { levelCeiling } from "../../src/impulse/level-ceiling.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";

const recipe = makeSweepRecipe({ durationS: 4 });
const excitation = excitationFromRecipe(recipe);
const RATE = recipe.sampleRate;

/** The sweep as a room with a crest each so many octaves makes it, each crest of its own height. */
function inRoom(heightDb: (crest: number) => number, octaves = 0.5): Float64Array {
  return excitation.samples().map((value, n) => {
    const place = (n - excitation.zeroSample) / (recipe.growthS * RATE * Math.LN2 * octaves);
    return value * 10 ** ((3 * Math.cos(2 * Math.PI * place) + heightDb(Math.round(place))) / 20);
  });
}

const uneven = inRoom((crest) => 1.5 * Math.sin(2.3 * crest));
const find = (samples: Float64Array) => levelCeiling({ samples, sampleRate: RATE }, excitation, excitation.zeroSample);
const clipped = (samples: Float64Array, overDb: number): Float64Array => {
  const peak = samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const rail = peak * 10 ** (-overDb / 20);
  return samples.map((value) => Math.min(rail, Math.max(-rail, value)));
};

describe("the crests of a recorded sweep", () => {
  it("end at levels of their own in a room", () => {
    expect(find(uneven)).toBeNull();
  });

  it("end at one level where an input clipped them, whatever the gain afterwards", () => {
    const found = find(clipped(uneven, 3).map((value) => 0.25 * value))!;
    expect(found.crests).toBeGreaterThanOrEqual(4);
    const peak = uneven.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    // 10 ms hold less than a cycle of the lowest; a rail is met by a sample within a hundredth of a dB.
    expect(found.levelDbfs).toBeCloseTo(20 * Math.log10(0.25 * peak) - 3, 2);
  });

  it("may end at one level and be round, as those that one reflection makes: nothing is said of them", () => {
    expect(find(inRoom(() => 0))).toBeNull();
  });

  it("are none in a sweep that is flat, as a cable hands it on", () => {
    expect(find(excitation.samples())).toBeNull();
  });
});
