import { Worker } from "node:worker_threads";

import type { Outcome } from "./task.js";

/** Threads that do tasks of one kind, to be closed when they are done. */
export interface Crew {
  /** Hands a task to the first thread that is free; the answer is whatever the thread's script makes of it. */
  ask(task: object): Promise<unknown>;
  close(): void;
}

interface Waiting {
  readonly task: object;
  readonly resolve: (result: unknown) => void;
  readonly reject: (error: Error) => void;
}

/**
 * Opens threads that all run one script.
 *
 * @param script - answers each message, a task, with one `Outcome`
 * @param start - what each thread is told when it begins
 * @param count - from 1 up
 */
export function openCrew(script: URL, start: unknown, count: number): Crew {
  const queue: Waiting[] = [];
  const busy = new Map<Worker, Waiting>();
  const idle = Array.from({ length: count }, () => {
    const worker = new Worker(script, { workerData: start });
    worker.on("message", (outcome: Outcome) => {
      settle(worker, outcome);
    });
    worker.on("error", (error: Error) => {
      fail(worker, error);
    });
    return worker;
  });

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

  return {
    ask: async (task) =>
      new Promise((resolve, reject) => {
        queue.push({ task, resolve, reject });
        hand();
      }),
    close() {
      for (const worker of [...idle, ...busy.keys()]) void worker.terminate();
    },
  };
}
