import { encodeWav } from "../../src/recording/encode-wav.js";
import { demoStudio } from "../../src/simulate/demo-studio.js";
import type { Scenario } from "../../src/simulate/scenario.js";
import { recordSession, type SimulatedSession } from "../../src/simulate/session/record-session.js";
import { openStudio } from "../../src/simulate/session/studio.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { renderReel } from "../../src/sweep/render.js";

/** A session with the files that its analysis asks for. */
export interface RecordedSession {
  readonly session: SimulatedSession["session"];
  readonly files: Record<string, Uint8Array>;
}

/** Short, so that many runs are affordable. With a gap of 1.1 s the slowest mode, cut off, stands out of the faintest noise. */
const SWEEP = { durationS: 1, leadS: 0.6, gapS: 1.3, tailS: 0.3 } as const;

/**
 * Sets up the demo's studio to be recorded many times: the sounds are computed once, each recording adds its noise.
 *
 * @returns gives the whole session with noise of another level, re full scale, and another seed
 */
export function recordedDemo(): (pinkDbRms: number, seed: number) => RecordedSession {
  const recipe = makeSweepRecipe(SWEEP);
  const reel = { ...renderReel(recipe), sampleRate: recipe.sampleRate };
  const studio = openStudio(demoStudio, reel);
  return (pinkDbRms, seed) => {
    const noise = { ...demoStudio.recorder.noise, pinkDbRms };
    // Each recording takes the next seed, so sessions need to be further apart.
    const scenario: Scenario = { ...demoStudio, seed: 1000 * seed, recorder: { ...demoStudio.recorder, noise } };
    return withFiles(
      recordSession(scenario, reel, (pair, position) => studio.sound(pair, position)),
      recipe,
    );
  };
}

/** Encodes what was simulated as an analysis reads it. */
export function withFiles(
  { session, recordings, calibrator }: SimulatedSession,
  recipe: ReturnType<typeof makeSweepRecipe>,
): RecordedSession {
  const sounds = calibrator ? [...recordings, calibrator] : recordings;
  const files = Object.fromEntries(
    sounds.map(({ file, samples }) => [file, encodeWav([samples], recipe.sampleRate, "pcm24")]),
  );
  return { session, files: { ...files, [session.sweep]: new TextEncoder().encode(JSON.stringify(recipe)) } };
}
