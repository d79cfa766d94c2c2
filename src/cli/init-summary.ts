import type { Proposal, ProposedRecording } from "../pipeline/propose-session.js";
import { printable } from "../words/printable.js";

const SIDES = { L: "left", R: "right", both: "both" } as const;

/** What every file was taken for, and which words led to it. */
export function proposalInWords(proposal: Proposal, strong: (text: string) => string): string {
  const { session, recordings, uses, leftOut, doubts } = proposal;
  const roles = new Map(session.monitors.map(({ id, role }) => [id, role]));
  const kinds = new Map(session.positions.map(({ id, kind }) => [id, kind]));
  const rows = recordings.map(({ file, holds, guess }) => [
    file,
    holds,
    `${guess.monitor} (${roles.get(guess.monitor)!})`,
    guess.channel === null ? "left and right" : SIDES[guess.channel],
    guess.position === "mix" ? "mix" : `${guess.position} (${kinds.get(guess.position)!})`,
    String(guess.take),
    inBrackets(guess.words),
  ]);
  const section = (heading: string, lines: readonly string[]): string[] =>
    lines.length === 0 ? [] : ["", strong(heading), ...lines.map((line) => `  ${line}`)];
  return [
    ...inColumns([["file", "holds", "monitor", "side", "place", "take", "because of"], ...rows], strong),
    ...section(
      "Other files of the session",
      uses.map(({ file, use }) => `${printable(file)}: ${use}`),
    ),
    ...section(
      "Left out",
      leftOut.map(({ file, reason }) => `${printable(file)}: ${reason.replace(/\.$/, "")}.`),
    ),
    ...section("What could not be told", doubts.map(printable)),
    "",
  ].join("\n");
}

function inBrackets(words: ProposedRecording["guess"]["words"]): string {
  if (words.length === 0) return "nothing in its name";
  return words.map(({ word, means }) => `${word} = ${means}`).join(", ");
}

/** The last column is as long as it is. */
function inColumns(rows: readonly (readonly string[])[], strong: (text: string) => string): string[] {
  const clean = rows.map((row) => row.map(printable));
  const widths = clean[0]!.map((_, column) => Math.max(...clean.map((row) => row[column]!.length)));
  return clean.map((row, n) => {
    const line = row
      .map((cell, column) => (column === row.length - 1 ? cell : cell.padEnd(widths[column]!)))
      .join("  ");
    return n === 0 ? strong(line) : line;
  });
}

/** The same for a program. */
export function proposalForPrograms(proposal: Proposal, isWritten: boolean, kept: string | null): object {
  const { session, recordings, uses, leftOut, doubts } = proposal;
  return {
    ...{ file: "session.json", written: isWritten, kept },
    recordings: recordings.map(({ file, holds, guess }) => ({ ...guess, file, holds })),
    ...{ uses, leftOut: leftOut.map(({ file, reason }) => ({ file, reason })), doubts, session },
  };
}
