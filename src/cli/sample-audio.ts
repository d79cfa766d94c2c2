import { demoStudio } from "../simulate/demo-studio.js";
import { simulateSession } from "../simulate/scenario.js";
import type { SimulatedSession } from "../simulate/session/record-session.js";
import type { SweepRecipe } from "../model.js";
import { makeSweepRecipe } from "../sweep/recipe.js";
import { renderReel } from "../sweep/render.js";

/** Makes the session of the folder sample-audio: the demo's studio at the mix position, in short sweeps of 16 bits. */
export function sampleSession(): { simulated: SimulatedSession; recipe: SweepRecipe } {
  const recipe = makeSweepRecipe({ durationS: 2.5, leadS: 1.2, gapS: 1.2, tailS: 0.5, format: "pcm16" });
  const scenario = { ...demoStudio, positions: demoStudio.positions.filter(({ kind }) => kind === "mix") };
  const reel = { ...renderReel(recipe), sampleRate: recipe.sampleRate };
  return { simulated: simulateSession(scenario, reel), recipe };
}
