import { expect, it } from "vitest";
import { demoStudio } from "../../src/simulate/demo-studio.js";
import { simulateSession } from "../../src/simulate/scenario.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { renderReel } from "../../src/sweep/render.js";

it("a studio simulated on several threads sounds as on one, to the last bit", async () => {
  // Threads need the compiled program, as its users run it.
  const compiled = "../../dist/workers/simulation.js";
  const { simulateOnThreads } = (await import(compiled)) as typeof import("../../src/workers/simulation.js");
  const scenario = { ...demoStudio, responseS: 0.1, positions: demoStudio.positions.slice(0, 2) };
  const recipe = makeSweepRecipe({ durationS: 0.5, leadS: 0.5, gapS: 0.5, tailS: 0.2 });
  const spread = await simulateOnThreads(scenario, recipe);
  const here = simulateSession(scenario, { ...renderReel(recipe), sampleRate: recipe.sampleRate });
  expect(spread.session).toEqual(here.session);
  expect(spread.recordings.map(({ file }) => file)).toEqual(here.recordings.map(({ file }) => file));
  for (const [index, { samples }] of spread.recordings.entries()) {
    expect(Buffer.compare(Buffer.from(samples.buffer), Buffer.from(here.recordings[index]!.samples.buffer))).toBe(0);
  }
});
