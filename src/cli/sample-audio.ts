import { demoStudio } from "../simulate/demo-studio.js";
import { simulateSession } from "../simulate/scenario.js";
import type { SimulatedSession } from "../simulate/session/record-session.js";
import type { SweepRecipe } from "../model.js";
import { makeSweepRecipe } from "../sweep/recipe.js";
import { renderReel } from "../sweep/render.js";

/** Makes the session of the folder sample-audio: the demo's studio at the mix position, one take, 16 bits. */
export function sampleSession(): { simulated: SimulatedSession; recipe: SweepRecipe } {
  const recipe = makeSweepRecipe({ durationS: 2.4, leadS: 0.8, gapS: 1.3, tailS: 0.3, format: "pcm16" });
  const positions = demoStudio.positions.filter(({ kind }) => kind === "mix").map((mix) => ({ ...mix, takes: 1 }));
  const scenario = { ...demoStudio, positions };
  const reel = { ...renderReel(recipe), sampleRate: recipe.sampleRate };
  return { simulated: simulateSession(scenario, reel), recipe };
}
