import { parentPort, workerData } from "node:worker_threads";

import { recordTake } from "../simulate/session/record-session.js";
import { openStudio } from "../simulate/session/studio.js";
import { renderReel } from "../sweep/render.js";
import { type SimulationStart, type SimulationTask, takesAt } from "./simulation.js";
import type { Outcome } from "./task.js";

/** A thread that records takes of a studio that does not exist. */
const { scenario, recipe } = workerData as SimulationStart;
const reel = { ...renderReel(recipe), sampleRate: recipe.sampleRate };
const studio = openStudio(scenario, reel);

parentPort?.on("message", (task: SimulationTask) => {
  const { outcome, moved } = perform(task);
  parentPort?.postMessage(outcome, moved);
});

function perform(task: SimulationTask): { outcome: Outcome; moved: ArrayBuffer[] } {
  try {
    const sound = studio.sound(task.pair, task.position);
    const result = takesAt(scenario, task).map((take) => recordTake(scenario.recorder.noise, reel, take, sound));
    return { outcome: { id: task.id, result }, moved: result.map(({ buffer }) => buffer as ArrayBuffer) };
  } catch (error) {
    const { message, stack } = error instanceof Error ? error : new Error(String(error));
    return { outcome: { id: task.id, failure: { message, stack } }, moved: [] };
  }
}
