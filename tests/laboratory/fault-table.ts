import { format } from "prettier";
import { significant } from "../../src/words/numbers.js";
import type { Outcome } from "./run-fault.js";

export const BEGIN = "<!-- fault table: written by tests/scripts/fault-table.mjs -->";
export const END = "<!-- end of the fault table -->";

const HEAD = ["fault", "strength", "matters", "found", "falsely found", "evidence"];

/** The cells of one row; what stands last is a measured number, the rest follows from the outcome alone. */
export function cellsOf({ fault, strength, found, falselyFound }: Outcome): string[] {
  const said = found === null ? "-" : `${found.code} (${found.severity})`;
  const value = found?.value ?? null;
  const evidence = value === null ? "-" : `${significant(value, 2)} ${found?.unit ?? ""}`.trim();
  return [
    fault.what,
    strength.strength,
    strength.verdict === "harmful" ? "yes" : "no",
    said,
    falselyFound.length === 0 ? "-" : falselyFound.join(", "),
    evidence,
  ];
}

/** The whole table as it stands in DEVELOPERS.md. */
export async function faultTable(outcomes: readonly Outcome[]): Promise<string> {
  const line = (cells: readonly string[]): string => `| ${cells.join(" | ")} |`;
  const rows = [HEAD, HEAD.map(() => "-"), ...outcomes.map(cellsOf)].map(line);
  return format(rows.join("\n"), { parser: "markdown" });
}

/** The rows of a page's table, cells without their padding. */
export function rowsIn(page: string): string[][] {
  const table = page.slice(page.indexOf(BEGIN) + BEGIN.length, page.indexOf(END));
  const lines = table.split("\n").filter((line) => line.startsWith("|"));
  return lines.slice(2).map((line) =>
    line
      .split("|")
      .slice(1, -1)
      .map((cell) => cell.trim()),
  );
}
