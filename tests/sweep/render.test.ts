import { describe, expect, it } from "vitest";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { renderReel, renderSingle } from "../../src/sweep/render.js";
import { singleEvents } from "../../src/sweep/timeline.js";

const recipe = makeSweepRecipe({ durationS: 1, repeats: 2, leadS: 0.5, gapS: 0.7, tailS: 0.3 });
const energy = (samples: Float64Array): number => samples.reduce((sum, value) => sum + value * value, 0);

describe("the reel", () => {
  it("plays marker, left sweeps, right sweeps, marker; both markers left", () => {
    expect(recipe.events.map(({ kind, channel }) => `${kind} ${channel}`)).toEqual([
      "marker L",
      "sweep L",
      "sweep L",
      "sweep R",
      "sweep R",
      "marker L",
    ]);
  });

  it("keeps every marker half a second clear of the sweeps", () => {
    const [first, second] = recipe.events;
    const [beforeLast, last] = recipe.events.slice(-2);
    expect(second!.atSample - first!.atSample - first!.samples).toBeGreaterThanOrEqual(0.5 * recipe.sampleRate);
    expect(last!.atSample - beforeLast!.atSample - beforeLast!.samples).toBeGreaterThanOrEqual(0.5 * recipe.sampleRate);
  });

  it("is silent outside its events, and each channel sounds only in its own", () => {
    const reel = renderReel(recipe);
    for (const channel of ["L", "R"] as const) {
      const rest = Float64Array.from(reel[channel]);
      for (const event of recipe.events) {
        if (event.channel === channel) rest.fill(0, event.atSample, event.atSample + event.samples);
      }
      expect(energy(rest)).toBe(0);
      expect(energy(reel[channel])).toBeGreaterThan(0);
    }
    expect(reel.L.length).toBe(reel.R.length);
    const last = recipe.events.at(-1)!;
    expect(reel.L.length).toBe(last.atSample + last.samples + Math.round(recipe.tailS * recipe.sampleRate));
  });

  it("gives one loudspeaker alone its own markers", () => {
    const events = singleEvents(recipe, "R");
    expect(events.map(({ kind, channel }) => `${kind} ${channel}`)).toEqual([
      "marker R",
      "sweep R",
      "sweep R",
      "marker R",
    ]);
    expect(energy(renderSingle(recipe, "R"))).toBeCloseTo(energy(renderSingle(recipe, "L")), 9);
  });
});
