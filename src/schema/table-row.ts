/** One field of a line, with the 1-based column where its text begins. */
export interface Field {
  readonly text: string;
  readonly column: number;
}

export type Separator = ";" | "\t" | ",";

/** What parts the fields of a line: the strongest sign of the three; a comma may also be a decimal comma. */
export function separatorOf(line: string): Separator {
  return line.includes(";") ? ";" : line.includes("\t") ? "\t" : ",";
}

/**
 * Splits a line at a separator outside quotes. Fields keep their place: an empty one is a field.
 *
 * @example splitFields('100; "0,5";', ";") // texts "100", "0,5", ""
 */
export function splitFields(line: string, separator: Separator): Field[] {
  const fields: Field[] = [];
  let start = 0;
  let quoted = false;
  for (let n = 0; n <= line.length; n++) {
    if (line[n] === '"') quoted = !quoted;
    if (n < line.length && (quoted || line[n] !== separator)) continue;
    const raw = line.slice(start, n);
    const text = raw
      .trim()
      .replace(/^"(.*)"$/, "$1")
      .trim();
    fields.push({ text, column: start + 1 + (raw.length - raw.trimStart().length) });
    start = n + 1;
  }
  return fields;
}
