import { availableParallelism } from "node:os";
import { Worker } from "node:worker_threads";

import { InputError } from "../errors.js";
import type { MixFile } from "../files/mix-file.js";
import { isOneChannel, isUnfiltered } from "./filter-versions.js";
import type { FilteredVersion, MatchedVersion, RenderJob, RenderMessage, RenderVersion } from "./render-job.js";

/** Each thread holds a block of every version it renders. */
const MOST_THREADS = 4;
/** Longer filters go into jobs of their own: blocks are cut for the longest of a job. */
const SHORT_TAPS = 2 ** 15;

/**
 * Filters and measures versions of a mix on as many threads as there are processors, up to four.
 *
 * @param onProgress - share of the work that is done, 0 to 1
 * @returns in the order of the versions
 */
export async function filterInThreads(
  mix: MixFile,
  versions: readonly RenderVersion[],
  onProgress: (share: number) => void,
): Promise<FilteredVersion[]> {
  const isShort = ({ taps }: RenderVersion): boolean => taps.every((side) => side.length <= SHORT_TAPS);
  const groups = [versions.filter(isShort), versions.filter((version) => !isShort(version))];
  const jobs = groups.flatMap((group) =>
    shareOut(group, (version) => (isOneChannel(version, mix) ? 1 : 2) * (isUnfiltered(version) ? 0.5 : 1)).map(
      (share): RenderJob => ({
        kind: "filter",
        mix,
        versions: share,
      }),
    ),
  );
  const filtered = await inThreads(jobs, versions.length * mix.frames, onProgress);
  return versions.map(({ id }) => filtered.find((one) => one.id === id)!);
}

/** Writes what was filtered, as `filterInThreads` does its part. */
export async function writeInThreads(
  versions: readonly MatchedVersion[],
  sampleRate: number,
  onProgress: (share: number) => void,
): Promise<void> {
  const jobs = shareOut(versions, () => 1).map((share): RenderJob => ({ kind: "write", sampleRate, versions: share }));
  const frames = versions.reduce((sum, { samples }) => sum + samples.frames, 0);
  await inThreads(jobs, frames, onProgress);
}

function threadCount(): number {
  return Math.max(1, Math.min(availableParallelism(), MOST_THREADS));
}

/** One share for each thread, none with much more to do than another: the longest first, each to the one with the least. */
function shareOut<Item>(items: readonly Item[], costOf: (item: Item) => number): Item[][] {
  const shares = Array.from({ length: threadCount() }, () => ({ items: [] as Item[], cost: 0 }));
  for (const item of items.toSorted((a, b) => costOf(b) - costOf(a))) {
    const least = shares.reduce((one, other) => (other.cost < one.cost ? other : one));
    least.items.push(item);
    least.cost += costOf(item);
  }
  return shares.map((share) => share.items).filter((share) => share.length > 0);
}

/** @param total - frames of all jobs and their versions */
async function inThreads(
  jobs: readonly RenderJob[],
  total: number,
  onProgress: (share: number) => void,
): Promise<FilteredVersion[]> {
  let done = 0;
  const waiting = [...jobs];
  const workers: Worker[] = [];
  const filtered: FilteredVersion[] = [];
  const work = async (): Promise<void> => {
    for (let next = waiting.shift(); next; next = waiting.shift()) {
      // A job that filters has each stretch done for all its versions at once.
      const atOnce = next.kind === "filter" ? next.versions.length : 1;
      const finished = await inThread(next, workers, (frames) => {
        done += frames * atOnce;
        onProgress(done / total);
      });
      filtered.push(...finished);
    }
  };
  try {
    await Promise.all(Array.from({ length: threadCount() }, work));
  } finally {
    // One that fails leaves the others without a purpose.
    for (const worker of workers) void worker.terminate();
  }
  return filtered;
}

function inThread(
  job: RenderJob,
  workers: Worker[],
  onProgress: (frames: number) => void,
): Promise<readonly FilteredVersion[]> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(new URL("./render-thread.js", import.meta.url), { workerData: job });
    workers.push(worker);
    worker.on("message", (message: RenderMessage) => {
      if (message.kind === "progress") onProgress(message.frames);
      else if (message.kind === "done") resolve(message.filtered);
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
