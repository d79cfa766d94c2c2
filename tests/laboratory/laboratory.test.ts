import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { afterAll, describe, expect, it } from "vitest";
import { allFaults } from "./all-faults.js";
import { BEGIN, cellsOf, END, faultTable, rowsIn } from "./fault-table.js";
import { type Outcome, runFault } from "./run-fault.js";

/** "all": every row, those that take long too; "write": the same, and the table in DEVELOPERS.md is written anew. */
const mode = process.env.CARRYWELL_FAULTS ?? "quick";
const page = fileURLToPath(new URL("../../DEVELOPERS.md", import.meta.url));
const text = readFileSync(page, "utf8");
const written = rowsIn(text);
const outcomes: Outcome[] = [];

describe.each(allFaults.map((fault) => [fault.what, fault] as const))("when %s", (_, fault) => {
  for (const strength of fault.strengths) {
    it.skipIf(mode === "quick" && strength.isSlow)(
      `${strength.strength}: ${strength.verdict === "harmful" ? `is named ${fault.code}` : "alarms nobody"}`,
      async () => {
        const outcome = await runFault(fault, strength);
        outcomes.push(outcome);
        expect(outcome.complaints).toEqual([]);
        // The measured number is left out: it moves with everything.
        const row = cellsOf(outcome).slice(0, -1);
        if (mode !== "write") expect(written.map((cells) => cells.slice(0, -1))).toContainEqual(row);
      },
    );
  }
});

it("the table in DEVELOPERS.md has one row for each fault and strength, and no other", () => {
  const injected = allFaults.flatMap(({ what, strengths }) => strengths.map(({ strength }) => [what, strength]));
  if (mode !== "write") expect(written.map((cells) => cells.slice(0, 2))).toEqual(injected);
});

afterAll(async () => {
  if (mode === "quick") return;
  const table = await faultTable(outcomes);
  console.log(table);
  if (mode !== "write") return;
  const from = text.indexOf(BEGIN) + BEGIN.length;
  writeFileSync(page, `${text.slice(0, from)}\n\n${table}\n${text.slice(text.indexOf(END))}`);
});
