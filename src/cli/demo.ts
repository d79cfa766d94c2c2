import { join } from "node:path";
import { demoStudioAfter } from "../simulate/demo-after.js";
import { demoStudio } from "../simulate/demo-studio.js";
import { type Scenario, simulateSession } from "../simulate/scenario.js";
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
  /** The session of the same studio after it was treated. */
  readonly after: string;
  readonly comparison: string;
}

export interface DemoWork {
  /** The work of the report command: analyses the session in one folder and writes into the other. */
  readonly report: (sessionFolder: string, reportFolder: string) => Promise<unknown>;
  /** That of the compare command: holds what was reported against a second session, and writes into the last folder. */
  readonly compare: (reportFolder: string, afterFolder: string, comparisonFolder: string) => Promise<unknown>;
  /** Hears in words what begins. */
  readonly onStep?: (what: string) => void;
}

/**
 * Makes the invented session, writes it to `<outDir>/session` and has it reported into `<outDir>/report`; then the same studio
 * treated, in `<outDir>/after`, and has the two compared into `<outDir>/comparison`.
 *
 * @param outDir - made if it is missing
 * @returns where all four are
 */
export async function runDemo(outDir: string, work: DemoWork): Promise<DemoFolders> {
  const { report, compare, onStep = () => undefined } = work;
  const folder = (name: string): string => join(outDir, name);
  const folders = {
    session: folder("session"),
    report: folder("report"),
    after: folder("after"),
    comparison: folder("comparison"),
  };
  const recipe = makeSweepRecipe(DEMO_SWEEP);
  const reel = { ...renderReel(recipe), sampleRate: recipe.sampleRate };
  const record = async (scenario: Scenario, into: string, what: string): Promise<void> => {
    onStep(`simulating ${what}`);
    const simulated = simulateSession(scenario, reel);
    onStep("writing the recordings");
    await writeSession(into, simulated, recipe);
  };
  await record(demoStudio, folders.session, "the studio");
  onStep("measuring");
  await report(folders.session, folders.report);
  await record(demoStudioAfter, folders.after, "the studio after its treatment");
  onStep("measuring and comparing");
  await compare(folders.report, folders.after, folders.comparison);
  return folders;
}
