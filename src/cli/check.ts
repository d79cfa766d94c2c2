import { availableParallelism } from "node:os";

import { readSession, type ReadSession } from "../files/read-session.js";
import { sessionFiles } from "../files/session-files.js";
import { type CheckedSession, checkRecordings } from "../pipeline/check-recordings.js";
import { captureInTurn } from "../pipeline/capture-in-turn.js";
import { prepareInputs } from "../pipeline/inputs.js";
import type { Labour } from "../pipeline/labour.js";
import { verdictsForPrograms, verdictsInWords } from "./check-summary.js";
import { openProgress } from "./progress.js";
import type { Terminal } from "./terminal.js";

/** `carrywell check`: says of each recording whether it can be used, before anyone leaves the room. */
export async function check(session: string, terminal: Terminal): Promise<number> {
  const source = await readSession(session);
  const checked = await checkSession(source, terminal);
  terminal.result(verdictsForPrograms(checked));
  terminal.say(verdictsInWords(checked, terminal.strong));
  return checked.recordings.every(({ usable }) => usable) ? 0 : 1;
}

async function checkSession(source: ReadSession, terminal: Terminal): Promise<CheckedSession> {
  const { session, folder, refused, notes } = source;
  const inputs = await prepareInputs(session, sessionFiles(folder));
  const progress = openProgress(terminal.options.quiet);
  const workers = await hear(source, captureInTurn(inputs));
  try {
    const onProgress = progress.at.bind(progress);
    return await checkRecordings(session, workers, {
      refused,
      notes: [...notes, ...inputs.notes],
      speedOfSound: inputs.calibration.speedOfSound,
      onProgress,
    });
  } finally {
    workers.close();
    progress.close();
  }
}

/** Threads take longer to begin than one recording takes to be heard. */
async function hear(
  { session, folder, refused }: ReadSession,
  here: Labour["capture"],
): Promise<Pick<Labour, "capture"> & { close(): void }> {
  const count = session.recordings.length - refused.size;
  if (count < 2 || availableParallelism() < 2) return { capture: here, close: () => undefined };
  const { openPool } = await import("../workers/pool.js");
  const pool = openPool(session, folder);
  return {
    capture: (recording) => pool.labour.capture(recording),
    close: () => {
      pool.close();
    },
  };
}
