import { availableParallelism } from "node:os";
import { Worker } from "node:worker_threads";

import { InputError } from "../errors.js";
import type { RenderedVersion, RenderJob, RenderMessage } from "./render-job.js";

/** Each thread holds a block of every version it renders. */
const MOST_THREADS = 4;
/** Longer filters go into jobs of their own: blocks are cut for the longest of a job. */
const SHORT_TAPS = 2 ** 15;

/**
 * Renders versions of a mix on as many threads as there are processors, up to four.
 *
 * @param onProgress - share of the work that is done, 0 to 1
 * @returns in the order of the versions
 */
export async function render(job: RenderJob, onProgress: (share: number) => void): Promise<RenderedVersion[]> {
  const threads = Math.max(1, Math.min(availableParallelism(), MOST_THREADS));
  const jobs = jobsFor(job, threads);
  const total = job.versions.length * job.mix.frames;
  let done = 0;
  const waiting = [...jobs];
  const workers: Worker[] = [];
  const rendered = new Map<string, RenderedVersion>();
  const work = async (): Promise<void> => {
    for (let next = waiting.shift(); next; next = waiting.shift()) {
      const { versions } = next;
      const finished = await inThread(next, workers, (frames) => {
        done += frames * versions.length;
        onProgress(done / total);
      });
      for (const version of finished) rendered.set(version.id, version);
    }
  };
  try {
    await Promise.all(Array.from({ length: Math.min(threads, jobs.length) }, work));
  } finally {
    // One that fails leaves the others without a purpose.
    for (const worker of workers) void worker.terminate();
  }
  return job.versions.map(({ id }) => rendered.get(id)!);
}

function jobsFor({ mix, versions }: RenderJob, threads: number): RenderJob[] {
  const isShort = ({ taps }: RenderJob["versions"][number]): boolean => taps.every((side) => side.length <= SHORT_TAPS);
  return [versions.filter(isShort), versions.filter((version) => !isShort(version))].flatMap((group) =>
    Array.from({ length: threads }, (_, t) => ({ mix, versions: group.filter((__, n) => n % threads === t) })).filter(
      (job) => job.versions.length > 0,
    ),
  );
}

function inThread(
  job: RenderJob,
  workers: Worker[],
  onProgress: (frames: number) => void,
): Promise<readonly RenderedVersion[]> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(new URL("./render-thread.js", import.meta.url), { workerData: job });
    workers.push(worker);
    worker.on("message", (message: RenderMessage) => {
      if (message.kind === "progress") onProgress(message.frames);
      else if (message.kind === "done") resolve(message.versions);
      else reject(asError(message));
    });
    worker.on("error", reject);
    worker.on("exit", (code) => {
      reject(new Error(`a thread ended with ${code}`));
    });
  });
}

/** An error loses its class on the way between threads. */
function asError({ message, details, code, syscall, path }: RenderMessage & { kind: "failure" }): Error {
  return details ? new InputError(message, details) : Object.assign(new Error(message), { code, syscall, path });
}
