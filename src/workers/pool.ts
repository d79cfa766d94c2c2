import { availableParallelism } from "node:os";
import { Worker } from "node:worker_threads";

import type { Session } from "../model.js";
import type { Labour } from "../pipeline.js";
import type { Outcome, Task, ThreadStart } from "./task.js";

/** Labour on several threads, to be closed when it is done. */
export interface Pool {
  readonly labour: Labour;
  close(): void;
}

/** Each thread holds one recording and its transforms: some hundred megabytes. */
const MOST_THREADS = 4;

interface Waiting {
  readonly task: Task;
  readonly resolve: (result: unknown) => void;
  readonly reject: (error: Error) => void;
}

/**
 * Opens as many threads as there are processors, up to four and to what there is to do.
 *
 * Every step goes to the first thread that is free; the numbers are those of one thread.
 *
 * @param folder - the session's folder, which each thread reads by itself
 */
export function openPool(session: Session, folder: string): Pool {
  const start: ThreadStart = { session, folder };
  const count = Math.max(1, Math.min(availableParallelism(), MOST_THREADS, session.recordings.length));
  const queue: Waiting[] = [];
  const busy = new Map<Worker, Waiting>();
  const idle = Array.from({ length: count }, () => openThread(start, settle, fail));
  let next = 0;

  function hand(): void {
    const worker = idle[0];
    const waiting = queue[0];
    if (!worker || !waiting) return;
    idle.shift();
    queue.shift();
    busy.set(worker, waiting);
    worker.postMessage(waiting.task);
  }

  function settle(worker: Worker, outcome: Outcome): void {
    const waiting = busy.get(worker);
    busy.delete(worker);
    idle.push(worker);
    hand();
    if (!waiting) return;
    if ("failure" in outcome) waiting.reject(Object.assign(new Error(outcome.failure.message), outcome.failure));
    else waiting.resolve(outcome.result);
  }

  /** A thread that died takes no more work; what waits would wait for ever. */
  function fail(worker: Worker, error: Error): void {
    for (const waiting of [busy.get(worker), ...queue.splice(0)]) waiting?.reject(error);
    busy.delete(worker);
  }

  const ask = async (step: keyof Labour, values: readonly unknown[]): Promise<unknown> =>
    new Promise((resolve, reject) => {
      queue.push({ task: { id: next++, step, arguments: values }, resolve, reject });
      hand();
    });
  return {
    labour: {
      capture: async (recording) => (await ask("capture", [recording])) as Awaited<ReturnType<Labour["capture"]>>,
      measure: async (...values) => (await ask("measure", values)) as Awaited<ReturnType<Labour["measure"]>>,
      measurePhantom: async (...values) =>
        (await ask("measurePhantom", values)) as Awaited<ReturnType<Labour["measurePhantom"]>>,
      lateSound: async (impulse) => (await ask("lateSound", [impulse])) as Awaited<ReturnType<Labour["lateSound"]>>,
    },
    close() {
      for (const worker of [...idle, ...busy.keys()]) void worker.terminate();
    },
  };
}

function openThread(
  start: ThreadStart,
  settle: (worker: Worker, outcome: Outcome) => void,
  fail: (worker: Worker, error: Error) => void,
): Worker {
  const worker = new Worker(new URL("./thread.js", import.meta.url), { workerData: start });
  worker.on("message", (outcome: Outcome) => {
    settle(worker, outcome);
  });
  worker.on("error", (error: Error) => {
    fail(worker, error);
  });
  return worker;
}
