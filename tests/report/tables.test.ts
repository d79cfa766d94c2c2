import Papa from "papaparse";
import { describe, expect, it } from "vitest";

import { csv } from "../../src/report/csv.js";
import { resultTables } from "../../src/report/tables.js";
import { hostileResultsFixture, resultsFixture, sparseResultsFixture } from "./results-fixture.js";

const results = resultsFixture();
const tables = new Map(resultTables(results).map(({ name, csv: text }) => [name, text]));

/** Read back by the library's reader, which shares no code with its writer. */
function rowsOf(name: string): Record<string, string>[] {
  return Papa.parse<Record<string, string>>(tables.get(name)!.trimEnd(), { header: true }).data;
}

describe("tables for other programs", () => {
  it("have one row for each measurement and frequency of the response", () => {
    const rows = rowsOf("response.csv");
    expect(rows).toHaveLength(results.measurements.reduce((sum, m) => sum + m.response.frequencyHz.length, 0));
    expect(Object.keys(rows[0]!)).toEqual([
      ...["measurement", "monitor", "channel", "position", "frequencyHz", "levelDb", "toneDb", "directDb"],
      ...["phaseDeg", "groupDelayS", "uncertaintyDb"],
    ]);
  });

  it("keep every digit: what is read back is the same number", () => {
    const first = results.measurements[0]!;
    const rows = rowsOf("response.csv").slice(0, first.response.frequencyHz.length);
    expect(rows.map((row) => Number(row["frequencyHz"]))).toEqual(first.response.frequencyHz);
    expect(rows.map((row) => (row["levelDb"] === "" ? null : Number(row["levelDb"])))).toEqual(first.response.levelDb);
    const delays = rowsOf("reflections.csv").map((row) => Number(row["delayS"]));
    expect(delays).toEqual(results.measurements.flatMap((m) => m.reflections.map((reflection) => reflection.delayS)));
  });

  it("hold every band of targets, checks, places and comparisons", () => {
    const [first, second] = results.monitors;
    expect(rowsOf("targets.csv").map((row) => Number(row["nominalHz"]))).toEqual(
      [first!, second!].flatMap(({ target }) => target!.bands.map((band) => band.nominalHz)),
    );
    expect(rowsOf("checks.csv").map((row) => row["pass"])).toEqual(
      [first!, second!].flatMap(({ checks }) => checks.map(({ pass }) => (pass === null ? "" : String(pass)))),
    );
    expect(rowsOf("places.csv")).toHaveLength(2 * first!.positions!.bands.length);
    expect(new Set(rowsOf("comparison-bands.csv").map((row) => row["over"]))).toEqual(new Set(["mix", "positions"]));
    expect(rowsOf("comparison-shows.csv").map((row) => row["monitor"])).toEqual(["mains", "nears"]);
    expect(rowsOf("findings.csv").filter((row) => row["topic"] === "trust")).toHaveLength(2);
  });

  it("leave a cell empty where a figure is not known", () => {
    const row = rowsOf("monitors.csv").find((one) => one["monitor"] === "mains")!;
    expect(row["minus10Hz"]).toBe("");
    expect(rowsOf("bands.csv").filter((one) => one["t30S"] === "0")).toEqual([]);
  });

  it("exist, with their heads, when nothing could be measured", () => {
    for (const { csv: text } of resultTables({ ...sparseResultsFixture(), measurements: [], monitors: [] })) {
      expect(text).toMatch(/^[A-Za-z0-9,]+\r\n/);
    }
  });

  it("name every file once and give as many cells in each row as in the head", () => {
    expect(new Set(tables.keys()).size).toBe(tables.size);
    for (const { csv: text } of [...resultTables(results), ...resultTables(hostileResultsFixture())]) {
      const parsed = Papa.parse<string[]>(text.trimEnd());
      expect(parsed.errors).toEqual([]);
      for (const row of parsed.data) expect(row).toHaveLength(parsed.data[0]!.length);
    }
  });
});

describe("text in a table", () => {
  it.each(["=1+1", "+1", "-1", "@sum", "\t=1", " =1", "\r\n=1", "=cmd|' /C calc'!A0\nmore", "\uff1d1"])(
    "is never taken for a formula: %j",
    (text) => {
      const [row] = Papa.parse<string[]>(csv(["a"], [[text]]).slice("a\r\n".length, -2), { newline: "\r" }).data;
      expect(row![0]).toBe(`'${text}`);
    },
  );

  it("and negative numbers are kept apart", () => {
    expect(csv(["a", "b"], [[-6.1, "-6.1"]])).toBe(`a,b\r\n-6.1,"'-6.1"\r\n`);
  });

  it("is quoted as RFC 4180 has it", () => {
    expect(csv(["a", "b", "c"], [[`say "aah"`, "one, two", "line\nline"]])).toBe(
      `a,b,c\r\n"say ""aah""","one, two","line\nline"\r\n`,
    );
  });
});
