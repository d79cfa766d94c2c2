import { availableParallelism } from "node:os";

import type { SweepRecipe } from "../model.js";
import type { Scenario } from "../simulate/scenario.js";
import { planRecordings } from "../simulate/session/plan.js";
import { type SimulatedSession, sessionOf } from "../simulate/session/record-session.js";
import { openCrew } from "./crew.js";

export interface SimulationStart {
  readonly scenario: Scenario;
  readonly recipe: SweepRecipe;
}

/** One pair at one position: all its takes. */
export interface SimulationTask {
  readonly id: number;
  readonly pair: string;
  readonly position: string;
}

/** Beyond that each thread has too little to do to earn its start. */
const MOST_THREADS = 4;

/** Measures a studio that does not exist, spread over threads; the samples are those of `simulateSession`. */
export async function simulateOnThreads(scenario: Scenario, recipe: SweepRecipe): Promise<SimulatedSession> {
  const { pairs, positions } = scenario;
  // Pairs take turns, so that with two threads each mostly serves one pair and prepares the sound of that one alone.
  const places = positions.flatMap((position) => pairs.map((pair) => ({ pair: pair.id, position: position.id })));
  const start: SimulationStart = { scenario, recipe };
  const count = Math.max(1, Math.min(availableParallelism(), MOST_THREADS, places.length));
  const crew = openCrew(new URL("./simulation-thread.js", import.meta.url), start, count);
  try {
    const takes = await Promise.all(
      places.map(async (place, id) => {
        const task: SimulationTask = { id, ...place };
        return { ...place, samples: (await crew.ask(task)) as readonly Float64Array[] };
      }),
    );
    return sessionOf(scenario, recipe.sampleRate, ({ pair, position, take }) => {
      const place = takes.find((one) => one.pair === pair && one.position === position);
      return place!.samples[take - 1]!;
    });
  } finally {
    crew.close();
  }
}

/** The takes of one pair at one position, in order. */
export function takesAt(scenario: Scenario, { pair, position }: SimulationTask): ReturnType<typeof planRecordings> {
  return planRecordings(scenario).filter((one) => one.pair === pair && one.position === position);
}
