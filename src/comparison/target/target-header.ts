import type { Field } from "../../schema/table-row.js";

/** A column's name that contradicts what the column must hold. */
export interface Misnamed {
  readonly what: string;
  readonly column: number;
}

const WRONG_FREQUENCY = /\bkhz\b|\brad\b|\boctaves?\b/i;
/** Fields of sound, which are dB only where they say so. */
const NOT_DB = /\b(amplitude|magnitude|pressure|gain)\b(?!.*\bdb\b)/i;
const WRONG_LEVEL = /%|\bratio\b|\blinear\b|\bfactor\b|\bpa\b|\bvolts?\b/i;

/**
 * Holds the words above a table against the order and the units that are read: frequency in Hz, level, lower and upper limit
 * in dB. Words that say nothing about them pass.
 */
export function misnamedColumn(fields: readonly Field[]): Misnamed | null {
  const [first, ...levels] = fields;
  if (!first || levels.length === 0) return null;
  if (WRONG_FREQUENCY.test(first.text)) {
    return { what: `The column "${first.text}" is not in Hz.`, column: first.column };
  }
  const wrong = levels.find(({ text }) => WRONG_LEVEL.test(text) || NOT_DB.test(text));
  if (wrong) return { what: `The column "${wrong.text}" is not in dB.`, column: wrong.column };
  const swapped = levels.find(({ text }) => /\bhz\b|\bfrequency\b/i.test(text));
  if (swapped) return { what: `The column "${swapped.text}" must be the first.`, column: swapped.column };
  const [, lower, upper] = levels;
  if (lower && /\b(upper|max|maximum)\b/i.test(lower.text)) {
    return { what: `The column "${lower.text}" stands where the lower limit is read.`, column: lower.column };
  }
  if (upper && /\b(lower|min|minimum)\b/i.test(upper.text)) {
    return { what: `The column "${upper.text}" stands where the upper limit is read.`, column: upper.column };
  }
  return null;
}
