import { join } from "node:path";

import { readSession } from "../files/read-session.js";
import { writeReport } from "../files/write-report.js";
import type { Analysis } from "../pipeline.js";
import { analyseSession } from "./analyse-session.js";
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
  const analysis = await analyseSession(source, terminal);
  await writeReport(analysis, source, out);
  return analysis;
}
