import { join } from "node:path";
import { demoStudio } from "../simulate/demo-studio.js";
import { simulateSession } from "../simulate/scenario.js";
import { makeSweepRecipe } from "../sweep/recipe.js";
import { renderReel } from "../sweep/render.js";
import { writeSession } from "./write-session.js";

/** Shorter than the default sweep: the simulated room is quiet, and nobody wants to wait for a demo. */
const DEMO_SWEEP = { durationS: 3.8, leadS: 1.5, gapS: 1.5, tailS: 0.5 } as const;

export interface DemoFolders {
  readonly session: string;
  readonly report: string;
}

/**
 * Makes the invented session, writes it to `<outDir>/session` and has it reported into `<outDir>/report`.
 *
 * @param outDir - made if it is missing
 * @param report - the work of the report command: analyses the session in one folder and writes into the other
 * @param onStep - hears in words what begins
 * @returns where both are
 */
export async function runDemo(
  outDir: string,
  report: (sessionFolder: string, reportFolder: string) => Promise<unknown>,
  onStep: (what: string) => void = () => undefined,
): Promise<DemoFolders> {
  const folders = { session: join(outDir, "session"), report: join(outDir, "report") };
  onStep("simulating the studio");
  const recipe = makeSweepRecipe(DEMO_SWEEP);
  const simulated = simulateSession(demoStudio, { ...renderReel(recipe), sampleRate: recipe.sampleRate });
  onStep("writing the recordings");
  await writeSession(folders.session, simulated, recipe);
  onStep("measuring");
  await report(folders.session, folders.report);
  return folders;
}
