import { availableParallelism } from "node:os";

import type { Session } from "../model.js";
import type { Labour } from "../pipeline.js";
import { openCrew } from "./crew.js";
import type { ThreadStart } from "./task.js";

/** Labour on several threads, to be closed when it is done. */
export interface Pool {
  readonly labour: Labour;
  close(): void;
}

/** Each thread holds one recording and its transforms: some hundred megabytes. */
const MOST_THREADS = 4;

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
  const crew = openCrew(new URL("./thread.js", import.meta.url), start, count);
  let next = 0;
  const ask = async (step: keyof Labour, values: readonly unknown[]): Promise<unknown> =>
    crew.ask({ id: next++, step, arguments: values });
  return {
    labour: {
      capture: async (recording) => (await ask("capture", [recording])) as Awaited<ReturnType<Labour["capture"]>>,
      measure: async (group) => (await ask("measure", [group])) as Awaited<ReturnType<Labour["measure"]>>,
      measurePhantom: async (...values) =>
        (await ask("measurePhantom", values)) as Awaited<ReturnType<Labour["measurePhantom"]>>,
    },
    close() {
      crew.close();
    },
  };
}
