import Papa from "papaparse";

export type CsvCell = boolean | number | string | null;

/**
 * What makes a spreadsheet take a text for a formula, also with blanks before it; the wide forms count in some
 * languages' settings.
 */
const formulaStart = /^(?:[\t\r\n]|\s*[=+\-@\uff1d\uff0b\uff0d\uff20])/;

/**
 * Writes a table as comma-separated values by RFC 4180: the only door to the CSV library, which quotes the texts.
 *
 * Numbers keep every digit and null is an empty cell. A text that a spreadsheet would compute gets an apostrophe in
 * front; a negative number does not.
 *
 * @example csv(["a", "b"], [[-1, "=1+1"]]) // "a,b\r\n-1,\"'=1+1\"\r\n"
 */
export function csv(columns: readonly string[], rows: readonly (readonly CsvCell[])[]): string {
  const texts = new Map<string, string>();
  const field = (cell: CsvCell): string => {
    if (cell === null) return "";
    if (typeof cell !== "string") return String(cell);
    // The same few names stand in thousands of rows.
    const known = texts.get(cell) ?? Papa.unparse([[cell]], { escapeFormulae: formulaStart });
    texts.set(cell, known);
    return known;
  };
  return [columns, ...rows].map((row) => `${row.map(field).join(",")}\r\n`).join("");
}
