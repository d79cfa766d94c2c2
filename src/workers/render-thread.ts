import { parentPort, workerData } from "node:worker_threads";

import { InputError } from "../errors.js";
import type { RenderJob, RenderMessage } from "./render-job.js";
import { renderVersions } from "./render-versions.js";

/** A thread that renders one job and ends. */
const tell = (message: RenderMessage): void => {
  parentPort?.postMessage(message);
};

renderVersions(workerData as RenderJob, (frames) => {
  tell({ kind: "progress", frames });
}).then(
  (versions) => {
    tell({ kind: "done", versions });
  },
  (error: unknown) => {
    const { message, code, syscall, path } = error as NodeJS.ErrnoException;
    const details = error instanceof InputError ? { where: error.where, remedy: error.remedy } : null;
    tell({ kind: "failure", message, details, code, syscall, path });
  },
);
