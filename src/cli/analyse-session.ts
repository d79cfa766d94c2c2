import { programVersion } from "../files/program-version.js";
import type { ReadSession } from "../files/read-session.js";
import { sessionFiles } from "../files/session-files.js";
import { type Analysis, analyse } from "../pipeline.js";
import { openPool } from "../workers/pool.js";
import { openProgress } from "./progress.js";
import type { Terminal } from "./terminal.js";

/** Measures a session on several threads, and says how far it is. */
export async function analyseSession(
  source: ReadSession,
  terminal: Terminal,
  { withRoom }: { withRoom: boolean } = { withRoom: true },
): Promise<Analysis> {
  const progress = openProgress(terminal.options.quiet);
  const pool = openPool(source.session, source.folder);
  try {
    const { refused, notes } = source;
    return await analyse(source.session, sessionFiles(source.folder), {
      version: await programVersion(),
      labour: pool.labour,
      refused,
      notes,
      withRoom,
      onProgress: (done, total, what) => {
        progress.at(done, total, what);
      },
    });
  } finally {
    pool.close();
    progress.close();
  }
}
