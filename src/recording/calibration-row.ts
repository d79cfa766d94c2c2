/** One field of a line of text, with the 1-based column where it begins. */
interface Field {
  readonly text: string;
  readonly column: number;
}

/** The numbers of a table's line in the text form that `parseNumber` reads. */
export interface CalibrationRow {
  readonly fields: readonly Field[];
  /** Separated by commas alone, so that a decimal comma would look like a further column. */
  readonly commaSeparated: boolean;
}

/**
 * Splits a line into fields: at semicolons, else at white space (with or without commas), else at commas.
 *
 * A comma inside a field of the first two kinds is a decimal comma. Quotes around a field and separators at the end of
 * the line carry nothing.
 */
export function splitRow(line: string): CalibrationRow {
  const separator = line.includes(";") ? /\s*;\s*/g : /\S\s+\S/.test(line.trim()) ? /,?\s+/g : /,/g;
  const commaSeparated = separator.source === "," && line.includes(",");
  const fields: Field[] = [];
  let start = line.length - line.trimStart().length;
  const end = line.trimEnd().replace(/[;,\s]+$/, "").length;
  const add = (to: number): void => {
    const text = line.slice(start, to);
    fields.push({ text: text.replace(/^"(.*)"$/, "$1"), column: start + 1 });
  };
  for (const match of line.matchAll(separator)) {
    if (match.index < start || match.index >= end) continue;
    add(match.index);
    start = match.index + match[0].length;
  }
  add(end);
  return { fields, commaSeparated };
}
