import { describe, expect, it } from "vitest";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { capture, recordPaths, whiteNoise } from "../known-recording.js";

const recipe = makeSweepRecipe();
const delays = { L: 0.006_123_456, R: 0.0061 };

describe("left and right from one reel", () => {
  it.each([
    [0, 0],
    [100, 0],
    [-100, 0],
    [100, 3e-4],
    [-100, 3e-4],
  ])(
    "recorded with a clock off by %d ppm and noise of %d keep their arrival to 2 us, the drift to 1 ppm",
    (ppm, noise) => {
      const samples = recordPaths(
        recipe,
        recipe.events,
        { L: [{ delayS: delays.L, gain: 0.3 }], R: [{ delayS: delays.R, gain: 0.2 }] },
        { ppm },
      );
      const hiss = whiteNoise(samples.length, 11);
      for (let n = 0; n < samples.length; n++) samples[n]! += noise * hiss[n]!;
      const { takes, findings } = capture(recipe, recipe.events, samples);
      expect(findings).toEqual([]);
      const [left, right] = takes;
      expect(left?.channel).toBe("L");
      expect(right?.channel).toBe("R");
      // The bars.
      expect(Math.abs(left!.drift!.ppm - ppm)).toBeLessThan(1);
      const differenceS = left!.arrivalPlayedS! - right!.arrivalPlayedS!;
      expect(Math.abs(differenceS - (delays.L - delays.R))).toBeLessThan(2e-6);
      expect(left!.drift!.correct).toBe(ppm !== 0);
    },
  );

  it("says nothing of a clock when the markers were not recorded", () => {
    const sweeps = recipe.events.filter(({ kind }) => kind === "sweep");
    const samples = recordPaths(recipe, sweeps, { L: [{ delayS: 0.01, gain: 0.3 }], R: [{ delayS: 0.01, gain: 0.3 }] });
    const { takes } = capture(recipe, recipe.events, samples);
    expect(takes.map(({ drift }) => drift)).toEqual([null, null]);
    expect(takes.map(({ arrivalPlayedS }) => arrivalPlayedS)).toEqual([null, null]);
  });

  it("takes the clock from repeats of one sweep when there are no markers", () => {
    const repeated = makeSweepRecipe({ durationS: 2, repeats: 2 });
    const sweeps = repeated.events.filter(({ kind }) => kind === "sweep");
    const paths = { L: [{ delayS: 0.01, gain: 0.3 }], R: [{ delayS: 0.01, gain: 0.3 }] };
    const { takes } = capture(repeated, repeated.events, recordPaths(repeated, sweeps, paths, { ppm: 60 }));
    expect(Math.abs(takes[0]!.drift!.ppm - 60)).toBeLessThan(1);
  });

  it("reads an inverted loudspeaker as inverted against the other", () => {
    const paths = { L: [{ delayS: 0.005, gain: 0.3 }], R: [{ delayS: 0.005, gain: -0.3 }] };
    const short = makeSweepRecipe({ durationS: 2 });
    const { takes } = capture(short, short.events, recordPaths(short, short.events, paths));
    expect(takes.map(({ impulse }) => impulse.polarity)).toEqual([1, -1]);
  });
});
