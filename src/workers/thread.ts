import { parentPort, workerData } from "node:worker_threads";

import { sessionFiles } from "../files/session-files.js";
import { type Labour, labourHere, prepareInputs } from "../pipeline.js";
import type { Outcome, Task, ThreadStart } from "./task.js";

/** A thread: does one heavy step after the other, on its own reading of the session. */
const { session, folder } = workerData as ThreadStart;
const labour = prepareInputs(session, sessionFiles(folder)).then(labourHere);
// Without a task nobody waits for it: a fault of the inputs is the main thread's to report.
labour.catch(() => undefined);

parentPort?.on("message", (task: Task) => {
  void perform(task).then((outcome) => parentPort?.postMessage(outcome));
});

async function perform({ id, step, arguments: values }: Task): Promise<Outcome> {
  try {
    const steps = (await labour) as Record<keyof Labour, (...values: readonly unknown[]) => Promise<unknown>>;
    return { id, result: await steps[step](...values) };
  } catch (error) {
    const { message, stack } = error instanceof Error ? error : new Error(String(error));
    return { id, failure: { message, stack } };
  }
}
