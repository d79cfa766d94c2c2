import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";

import { InputError } from "../errors.js";
import { writeTogether } from "../files/stage.js";
import { demoStudio } from "../simulate/demo-studio.js";
import { PLACEMENT_M } from "../pipeline/compare-sessions.js";
import type { Changes } from "../schema/changes.js";
import { countedOnce } from "../schema/counted-once.js";
import { makeComparison } from "./compare.js";
import { runDemo } from "./demo.js";
import { makeReport } from "./report.js";
import { summaryForPrograms, summaryInWords } from "./summary.js";
import type { Terminal } from "./terminal.js";
import type { Analysis } from "../pipeline.js";

/** `carrywell demo`: makes the invented session and reports on it. */
export async function demo(out: string, terminal: Terminal): Promise<number> {
  await refuseForeign(out);
  let analysis: Analysis | undefined;
  let changes: Changes | undefined;
  await writeTogether(out, async (stage) => {
    await runDemo(stage, {
      report: async (session, report) => {
        analysis = await makeReport(session, report, terminal);
      },
      compare: async (report, after, comparison) => {
        ({ changes } = await makeComparison(
          { before: report, after, out: comparison, placementM: PLACEMENT_M, monitors: null },
          terminal,
        ));
      },
      onStep: (what) => {
        terminal.remark(`${what}...`);
      },
    });
    return {};
  });
  if (!analysis) throw new RangeError("the demo made no report");
  terminal.result(summaryForPrograms(analysis, join(out, "report")));
  terminal.say(`${summaryInWords(analysis, terminal.strong)}
${terminal.strong("Session")}: ${join(out, "session")} (invented: the room, the monitors and the people do not exist)
${terminal.strong("Report")}:  ${join(out, "report", "report.html")}
${terminal.strong("After treatment")}: ${String(count(changes, "better"))} better, ${String(count(changes, "worse"))} worse: ${join(out, "comparison", "comparison.html")}`);
  return analysis.rejected.length > 0 ? 1 : 0;
}

function count(changes: Changes | undefined, topic: "better" | "worse"): number {
  return changes ? countedOnce(changes.says, topic).length : 0;
}

/** The demo replaces what an earlier demo wrote; anything else in the folder may be someone's own. */
async function refuseForeign(out: string): Promise<void> {
  const entries = await readdir(out).catch(() => []);
  if (entries.every((name) => name.startsWith("."))) return;
  const session = await readFile(join(out, "session", "session.json"), "utf8").catch(() => "");
  if (session.includes(JSON.stringify(demoStudio.about.title))) return;
  throw new InputError("The folder already holds something that is not the demo's.", {
    where: out,
    remedy: "give a new folder for the demo",
  });
}
