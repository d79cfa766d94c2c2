import { InputError } from "../errors.js";
import type { MicrophoneCalibration } from "../model.js";
import { notANumber, parseNumber, textLines } from "../schema/table-text.js";
import { splitRow, type CalibrationRow } from "./calibration-row.js";

/** No microphone deviates by more; such a value is a sensitivity, a level in dB SPL or a slipped column. */
const LARGEST_DEVIATION_DB = 60;
/** A table that ends below is in kHz. */
const LOWEST_LAST_HZ = 100;
const COMMENT = /^\s*([*#%!;]|\/\/)/;

/**
 * Reads a microphone's calibration table: lines of frequency in Hz, deviation in dB and, unread, phase.
 *
 * A positive deviation means that the microphone reads too high there. Words may stand before the table, comments
 * (`* # % ! ; //`) and blank lines anywhere; fields are parted by tab, spaces, semicolon or comma; decimals have point
 * or comma; line ends are LF or CRLF; text is UTF-8, UTF-16 with its mark, or Latin-1. Words before the table mean
 * nothing: a sensitivity there is not used. A line before the table that begins like a number counts as its first row,
 * so that a damaged first row is refused and not passed over.
 *
 * @param bytes - the whole file
 * @param name - the file's name, for messages
 * @returns rows in the file's order; frequencies rise strictly
 * @throws {InputError} with line and column where the table is damaged, ambiguous or absent
 * @example parseMicrophoneCalibration(bytes of "* front\n20 -0.7\n1000 0.3\n", "mic.txt").levelDb // [-0.7, 0.3]
 */
export function parseMicrophoneCalibration(bytes: Uint8Array, name: string): MicrophoneCalibration {
  const frequencyHz: number[] = [];
  const levelDb: number[] = [];
  let columns = 0;
  let ambiguousLine = 0;
  let hasPoint = false;
  for (const [index, line] of textLines(bytes, (what, line, column) => damaged(what, name, line, column)).entries()) {
    const number = index + 1;
    if (line.trim() === "" || COMMENT.test(line)) continue;
    const row = splitRow(line);
    const first = row.fields[0]!;
    const isHeader = parseNumber(first.text) === null && !/^\s*[-+.,\d]/.test(line);
    if (columns === 0 && isHeader && !line.trimStart().startsWith("<")) continue;
    const values = readNumbers(row, name, number);
    if (columns === 0) columns = values.length;
    if (values.length !== columns) {
      const found = `${values.length} column(s), the rows above have ${columns}`;
      throw damaged(`The row has ${found}.`, name, number, row.fields.at(-1)!.column);
    }
    const [frequency, level] = values as [number, number];
    const previous = frequencyHz.at(-1) ?? 0;
    if (frequency <= previous) {
      const what = `The frequency ${frequency} Hz does not rise above ${previous} Hz of the row before.`;
      throw damaged(what, name, number, first.column);
    }
    if (Math.abs(level) > LARGEST_DEVIATION_DB) {
      const what = `${level} dB is no microphone's deviation from flat; up to ${LARGEST_DEVIATION_DB} dB is accepted.`;
      throw damaged(what, name, number, row.fields[1]!.column);
    }
    if (row.commaSeparated && columns === 3) ambiguousLine ||= number;
    hasPoint ||= line.includes(".");
    frequencyHz.push(frequency);
    levelDb.push(level);
  }
  if (frequencyHz.length < 2) {
    throw damaged(`The table has ${frequencyHz.length} row(s); at least 2 are needed.`, name, 1, 1);
  }
  if (ambiguousLine > 0 && !hasPoint) {
    const what = "Commas part the columns and no number has a decimal point: a comma may be either.";
    throw damaged(what, name, ambiguousLine, 1);
  }
  if (frequencyHz.at(-1)! < LOWEST_LAST_HZ) {
    const what = `The table ends at ${frequencyHz.at(-1)!} Hz: its frequencies seem to be in kHz.`;
    throw damaged(what, name, 1, 1);
  }
  return { frequencyHz, levelDb };
}

function readNumbers({ fields }: CalibrationRow, name: string, line: number): number[] {
  const values = fields.map(({ text, column }) => {
    const value = parseNumber(text);
    if (value !== null) return value;
    throw damaged(notANumber(text), name, line, column);
  });
  if (values.length < 2 || values.length > 3) {
    const what = `The row has ${values.length} column(s); frequency, level and perhaps phase are read.`;
    throw damaged(what, name, line, fields[0]!.column);
  }
  return values;
}

function damaged(what: string, name: string, line: number, column: number): InputError {
  return new InputError(what, {
    where: `${name}, line ${line}, column ${column}`,
    remedy: "give rows of frequency in Hz and deviation in dB, rising in frequency; put * before lines of words",
  });
}
