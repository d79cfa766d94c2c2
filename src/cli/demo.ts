import { join } from "node:path";
import type { SweepRecipe } from "../model.js";
import { demoStudio } from "../simulate/demo-studio.js";
import { type Scenario, simulateSession } from "../simulate/scenario.js";
import type { SimulatedSession } from "../simulate/session/record-session.js";
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
  /** Who simulates; by default it is done where the caller stands. */
  readonly simulate?: (scenario: Scenario, recipe: SweepRecipe) => Promise<SimulatedSession>;
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
  const { report, simulate = simulateHere, onStep = () => undefined } = work;
  const folders = { session: join(outDir, "session"), report: join(outDir, "report") };
  onStep("simulating the studio");
  const recipe = demoRecipe();
  const simulated = await simulate(demoStudio, recipe);
  onStep("writing the recordings");
  await writeSession(folders.session, simulated, recipe);
  onStep("measuring");
  await report(folders.session, folders.report);
  return folders;
}

/** The sweep that the demo plays. */
export function demoRecipe(): SweepRecipe {
  return makeSweepRecipe(DEMO_SWEEP);
}

async function simulateHere(scenario: Scenario, recipe: SweepRecipe): Promise<SimulatedSession> {
  return Promise.resolve(simulateSession(scenario, { ...renderReel(recipe), sampleRate: recipe.sampleRate }));
}
