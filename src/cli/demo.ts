import { join } from "node:path";
import { demoStudio } from "../simulate/demo-studio.js";
import { simulateSession } from "../simulate/scenario.js";
import { makeSweepRecipe } from "../sweep/recipe.js";
import { renderReel } from "../sweep/render.js";
import { writeSession } from "./write-session.js";

/**
 * Shorter than the default sweep: the simulated room is quiet, and nobody wants to wait for a demo. The gap is as long as
 * the room's response, and its slowest decay needs all of it.
 */
const DEMO_SWEEP = { durationS: 2.4, leadS: 0.8, gapS: 1.3, tailS: 0.3 } as const;

export interface DemoFolders {
  readonly session: string;
  readonly report: string;
}

export interface DemoWork {
  /** The work of the report command: analyses the session in one folder and writes into the other. */
  readonly report: (sessionFolder: string, reportFolder: string) => Promise<unknown>;
  /** Hears in words what begins. */
  readonly onStep?: (what: string) => void;
}

/**
 * Makes the invented session, writes it to `<outDir>/session` and has it reported into `<outDir>/report`.
 *
 * @param outDir - made if it is missing
 * @returns where both are
 */
export async function runDemo(outDir: string, work: DemoWork): Promise<DemoFolders> {
  const { report, onStep = () => undefined } = work;
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
