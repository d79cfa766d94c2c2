import { join, resolve } from "node:path";

import { InputError } from "../errors.js";
import { inputFiles } from "../files/input-files.js";
import { programVersion } from "../files/program-version.js";
import { findResults, readResults } from "../files/read-results.js";
import { readSession } from "../files/read-session.js";
import { writeComparison } from "../files/write-comparison.js";
import type { Results } from "../model.js";
import { type CompareOptions, compareSessions } from "../pipeline/compare-sessions.js";
import type { Changes, Said } from "../schema/changes.js";
import { unpairedTogether } from "../schema/unpaired-together.js";
import { closed } from "../words/numbers.js";
import { analyseSession } from "./analyse-session.js";
import type { Terminal } from "./terminal.js";

export interface CompareCommand {
  readonly before: string;
  /** Null where two monitors of one session are compared. */
  readonly after: string | null;
  readonly out: string;
  readonly placementCm: number;
  readonly monitor: string | null;
  readonly against: string | null;
}

/** What was measured, and the files it was read from. */
interface Source {
  readonly results: Results;
  readonly files: readonly string[];
  readonly rejected: number;
}

/** `carrywell compare`: what differs between two sessions or two monitors, and whether it is real. */
export async function compare(command: CompareCommand, terminal: Terminal): Promise<number> {
  const { before, after, out, placementCm } = command;
  const monitors = monitorsOf(command);
  refusePlacement(placementCm);
  const { changes, rejected } = await makeComparison(
    { before, after: after ?? before, out, placementM: placementCm / 100, monitors },
    terminal,
  );
  terminal.result(changesForPrograms(changes, out));
  terminal.say(
    `${changesInWords(changes, terminal.strong)}\n${terminal.strong("Comparison")}: ${join(out, "comparison.html")}`,
  );
  return rejected > 0 ? 1 : 0;
}

/** Measures what has to be measured, compares, and writes. */
export async function makeComparison(
  { before, after, out, ...options }: CompareOptions & { before: string; after: string; out: string },
  terminal: Terminal,
): Promise<{ changes: Changes; rejected: number }> {
  await refuseSame(before, after, options.monitors);
  const old = await open(before, terminal);
  const now = resolve(after) === resolve(before) ? old : await open(after, terminal);
  const changes = compareSessions(old.results, now.results, { ...options, version: await programVersion() });
  await writeComparison(changes, [...old.files, ...now.files], out);
  return { changes, rejected: old.rejected + now.rejected };
}

function monitorsOf({ after, monitor, against }: CompareCommand): { before: string; after: string } | null {
  if ((monitor === null) !== (against === null)) {
    throw new InputError("--monitor and --against go together.", {
      where: "command line",
      remedy: "name both: --monitor mains --against nears",
    });
  }
  if (monitor !== null && against !== null) return { before: monitor, after: against };
  if (after !== null) return null;
  throw new InputError("There is only one session, so nothing to compare it with.", {
    where: "command line",
    remedy: "give the session after as well, or compare two monitors of one: --monitor mains --against nears",
  });
}

/** One session does not differ from itself. */
async function refuseSame(before: string, after: string, monitors: CompareOptions["monitors"]): Promise<void> {
  const [old, now] = await Promise.all([before, after].map(fileOf));
  if (old !== now || (monitors !== null && monitors.before !== monitors.after)) return;
  throw new InputError(
    monitors === null
      ? "Before and after are the same session, so nothing can differ."
      : "This is one monitor of one session twice, so nothing can differ.",
    {
      where: after,
      remedy: "give the session after as well, or compare two monitors of one: --monitor mains --against nears",
    },
  );
}

/** The file that a path stands for: a folder without results is its session.json. */
async function fileOf(given: string): Promise<string> {
  const results = await findResults(given);
  return resolve(results ?? (given.endsWith(".json") ? given : join(given, "session.json")));
}

function refusePlacement(placementCm: number): void {
  if (placementCm >= 0 && placementCm <= 30) return;
  throw new InputError("The microphone's placement is out of range.", {
    where: "--placement",
    remedy: "give centimetres from 0 (not touched) to 30",
  });
}

async function open(given: string, terminal: Terminal): Promise<Source> {
  const file = await findResults(given);
  if (file !== null) return { results: await readResults(file), files: [file], rejected: 0 };
  const source = await readSession(given);
  const { results, rejected } = await analyseSession(source, terminal);
  return { results, files: inputFiles(source), rejected: rejected.length };
}

const headings: readonly (readonly [Said["topic"], string])[] = [
  ["better", "Better"],
  ["worse", "Worse"],
  ["changed", "Changed, neither for better nor for worse"],
  ["same", "Not changed"],
  ["unknown", "Cannot be told from these measurements"],
];

/** The comparison in a few lines: the same sentences in the same order as on the page. */
export function changesInWords({ says, unpaired }: Changes, strong: (text: string) => string): string {
  const lines = headings.flatMap(([topic, heading]) => {
    const said = says.filter((one) => one.topic === topic);
    if (said.length === 0)
      return topic === "better" || topic === "worse" ? [strong(heading), "  Nothing for certain.", ""] : [];
    return [
      strong(heading),
      ...said.flatMap(({ message, remedy, figures }) => [
        `  ${closed(message)}`,
        ...(figures === null || figures === "" ? [] : [`    (${figures})`]),
        ...(remedy === null ? [] : [`    try: ${remedy}`]),
      ]),
      "",
    ];
  });
  const left = unpairedTogether(unpaired).map(
    ({ what, ids, in: side, because }) => `  ${what} ${ids.join("; ")} (${side}): ${because}`,
  );
  return [...lines, ...(left.length === 0 ? [] : [strong("Without a counterpart, or not the same"), ...left, ""])].join(
    "\n",
  );
}

function changesForPrograms({ says, unpaired, chance, pairs }: Changes, out: string): object {
  return {
    out,
    comparison: "comparison.html",
    changes: "changes.json",
    pairs: pairs.map(({ id }) => id),
    chance,
    says,
    unpaired,
  };
}
