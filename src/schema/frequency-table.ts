import { type Damage, textLines } from "./table-text.js";
import { type Field, separatorOf, splitFields } from "./table-row.js";

const COMMENT = /^\s*(#|\*|\/\/)/;

/** What a table over frequency holds. */
export interface TableKind<Row> {
  readonly mostColumns: number;
  readonly leastRows: number;
  /** Complains about words above the table. */
  readonly checkHeader: (fields: readonly Field[], line: number) => void;
  readonly readRow: (fields: readonly Field[], line: number) => Row;
}

export interface FrequencyTable<Row> {
  readonly rows: readonly (Row & { readonly line: number })[];
  /** Where the rows begin. */
  readonly firstLine: number;
}

/**
 * Reads rows that rise in frequency, as people write them.
 *
 * Fields are parted by semicolon, tab or comma; with the first two, decimals have point or comma; fields may be quoted. Words
 * may stand above the table; `#`, `*` and `//` begin comments. Text is UTF-8 (with or without mark), UTF-16 with its mark, or
 * Latin-1; lines end in LF or CRLF.
 *
 * @throws {InputError} of the caller's making, with line and column, where the table is damaged or ambiguous
 */
export function readFrequencyTable<Row extends { readonly frequencyHz: number }>(
  bytes: Uint8Array,
  damage: Damage,
  { mostColumns, leastRows, checkHeader, readRow }: TableKind<Row>,
): FrequencyTable<Row> {
  const lines = textLines(bytes, damage)
    .map((text, index) => ({ text, line: index + 1 }))
    .filter(({ text }) => /[^\s;,"]/.test(text) && !COMMENT.test(text));
  const start = lines.findIndex(({ text }) => /^[\s"]*[-+.,;\d]/.test(text));
  const words = start < 0 ? lines : lines.slice(0, start);
  const table = start < 0 ? [] : lines.slice(start);
  const headers = words.map(({ text, line }) => ({ fields: splitFields(text, separatorOf(text)), line }));
  for (const { fields, line } of headers) checkHeader(fields, line);
  const separator = separatorOf(table[0]?.text ?? "");
  const rows: (Row & { line: number })[] = [];
  let columns = 0;
  for (const { text, line } of table) {
    const fields = splitFields(text, separator);
    while (fields.length > mostColumns && fields.at(-1)!.text === "") fields.pop();
    const row = readRow(fields, line);
    columns ||= fields.length;
    if (fields.length !== columns) {
      const what = `The row has ${fields.length} column(s), the first row has ${columns}.`;
      throw damage(what, line, fields.at(-1)!.column);
    }
    if (row.frequencyHz <= 0)
      throw damage(`The frequency ${row.frequencyHz} Hz is not above 0.`, line, fields[0]!.column);
    const previous = rows.at(-1);
    if (previous && row.frequencyHz <= previous.frequencyHz) {
      const how =
        row.frequencyHz === previous.frequencyHz ? "repeats that" : `does not rise above ${previous.frequencyHz} Hz`;
      throw damage(`The frequency ${row.frequencyHz} Hz ${how} of the row before.`, line, fields[0]!.column);
    }
    rows.push({ ...row, line });
  }
  const firstLine = table[0]?.line ?? 1;
  if (rows.length < leastRows) {
    throw damage(`The table has ${rows.length} row(s); at least ${leastRows} are needed.`, firstLine, 1);
  }
  const named = headers.at(-1)?.fields.length === columns;
  if (separator === "," && columns > 2 && !named && !table.some(({ text }) => /[."]/.test(text))) {
    const what = "Commas part the columns and no number has a decimal point: a comma may be either.";
    throw damage(what, firstLine, 1);
  }
  return { rows, firstLine };
}
