import { join } from "node:path";

import { programVersion } from "../files/program-version.js";
import { readSession } from "../files/read-session.js";
import { sessionFiles } from "../files/session-files.js";
import { writeReport } from "../files/write-report.js";
import { type Analysis, analyse } from "../pipeline.js";
import { openPool } from "../workers/pool.js";
import { openProgress } from "./progress.js";
import { summaryForPrograms, summaryInWords } from "./summary.js";
import type { Terminal } from "./terminal.js";

/** `carrywell report`: analyses a session and writes its report. */
export async function report(session: string, out: string, terminal: Terminal): Promise<number> {
  const analysis = await makeReport(session, out, terminal);
  const page = join(out, "report.html");
  terminal.result(summaryForPrograms(analysis, out));
  terminal.say(`${summaryInWords(analysis, terminal.strong)}\n${terminal.strong("Report")}: ${page}`);
  return analysis.rejected.length > 0 ? 1 : 0;
}

/** Reads a session, measures it and writes the report's files. */
export async function makeReport(session: string, out: string, terminal: Terminal): Promise<Analysis> {
  const source = await readSession(session);
  const progress = openProgress(terminal.options.quiet);
  const pool = openPool(source.session, source.folder);
  try {
    const { refused, notes } = source;
    const analysis = await analyse(source.session, sessionFiles(source.folder), {
      version: await programVersion(),
      labour: pool.labour,
      refused,
      notes,
      onProgress: (done, total, what) => {
        progress.at(done, total, what);
      },
    });
    await writeReport(analysis, source, out);
    return analysis;
  } finally {
    pool.close();
    progress.close();
  }
}
