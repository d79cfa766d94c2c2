import { describe, expect, it } from "vitest";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { singleEvents } from "../../src/sweep/timeline.js";
import { capture, recordPaths, whiteNoise } from "../known-recording.js";

const recipe = makeSweepRecipe({ durationS: 4 });
const events = singleEvents(recipe, "L");
const path = { L: [{ delayS: 0.006, gain: 0.3 }], R: [] };
const sweep = events.find(({ kind }) => kind === "sweep")!;

function recorded(seed: number): Float64Array {
  const samples = recordPaths(recipe, events, path, { leadS: 0 });
  const noise = whiteNoise(samples.length, seed);
  return samples.map((value, n) => value + 2e-4 * noise[n]!);
}

const residual = (samples: Float64Array) => capture(recipe, events, samples, { channel: "L" }).takes[0]!.residual!;

describe("what the response does not explain", () => {
  it.each([1, 2, 3])("is the room's noise when nothing happened, seed %d", (seed) => {
    const { medianExcessDb, worstExcessDb } = residual(recorded(seed));
    // The response takes its share of the noise with it, and a median lies under a mean: a little below 0.
    expect(medianExcessDb).toBeGreaterThan(-4);
    expect(medianExcessDb).toBeLessThan(0.5);
    // 60 blocks of 8 bands; the narrowest holds about four independent values.
    expect(worstExcessDb).toBeLessThan(12);
  });

  it("has a knock in it, at its time and in its band", () => {
    const samples = recorded(4);
    const at = sweep.atSample + 160_000;
    for (let n = 0; n < 4800; n++)
      samples[at + n]! += 0.05 * Math.exp(-n / 600) * Math.sin((2 * Math.PI * 125 * n) / 48_000);
    const { worstExcessDb, worstAtS, worstBandHz } = residual(samples);
    expect(worstExcessDb).toBeGreaterThan(20);
    expect(Math.abs(worstAtS! - at / 48_000)).toBeLessThan(0.11);
    expect(worstBandHz).toBe(125);
  });

  it("has a hiss of 10 ms in it, at its time", () => {
    const samples = recorded(5);
    const hiss = whiteNoise(480, 6);
    const at = sweep.atSample + 120_000;
    for (let n = 0; n < hiss.length; n++) samples[at + n]! += 0.02 * hiss[n]!;
    const { worstExcessDb, worstAtS } = residual(samples);
    expect(worstExcessDb).toBeGreaterThan(20);
    expect(Math.abs(worstAtS! - at / 48_000)).toBeLessThan(0.15);
  });
});
