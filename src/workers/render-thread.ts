import { parentPort, workerData } from "node:worker_threads";

import { InputError } from "../errors.js";
import { filterVersions } from "./filter-versions.js";
import type { FilteredVersion, RenderJob, RenderMessage } from "./render-job.js";
import { writeVersions } from "./write-versions.js";

/** A thread that does one job and ends. */
const tell = (message: RenderMessage): void => {
  parentPort?.postMessage(message);
};

async function perform(job: RenderJob, onProgress: (frames: number) => void): Promise<FilteredVersion[]> {
  if (job.kind === "filter") return filterVersions(job.mix, job.versions, onProgress);
  await writeVersions(job.versions, job.sampleRate, onProgress);
  return [];
}

perform(workerData as RenderJob, (frames) => {
  tell({ kind: "progress", frames });
}).then(
  (filtered) => {
    tell({ kind: "done", filtered });
  },
  (error: unknown) => {
    const { message, code, syscall, path } = error as NodeJS.ErrnoException;
    const details = error instanceof InputError ? { where: error.where, remedy: error.remedy } : null;
    tell({ kind: "failure", message, details, code, syscall, path });
  },
);
