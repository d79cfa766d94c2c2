import { InputError } from "../errors.js";
import type { MicrophoneCalibration } from "../model.js";
import { notANumber, parseNumber, textLines } from "../schema/table-text.js";
import { anglesIn } from "./calibration-angles.js";
import { splitRow, type CalibrationRow } from "./calibration-row.js";

/** No microphone deviates by more; such a value is a sensitivity, a level in dB SPL or a slipped column. */
const LARGEST_DEVIATION_DB = 60;
/** A table that ends below is in kHz. */
const LOWEST_LAST_HZ = 100;
const COMMENT = /^\s*([*#%!;]|\/\/)/;
/** A stated angle picks a column within so many degrees. A choice of ours. */
const SAME_ANGLE_DEG = 5;

/** A table with the angle of incidence that it is for. */
export interface ReadCalibration extends MicrophoneCalibration {
  /** As its words say; null where they say nothing, or more than one thing. */
  readonly angleDeg: number | null;
}

/**
 * Reads a microphone's calibration table: lines of frequency in Hz, deviation in dB and, unread, phase; or one column of
 * deviations for each of the angles that a line of words before the table names ("Hz 0° 90°").
 *
 * A positive deviation means that the microphone reads too high there. Words may stand before the table, comments
 * (`* # % ! ; //`) and blank lines anywhere; fields are parted by tab, spaces, semicolon or comma; decimals have point
 * or comma; line ends are LF or CRLF; text is UTF-8, UTF-16 with its mark, or Latin-1. Words before the table mean
 * nothing: a sensitivity there is not used. A line before the table that begins like a number counts as its first row,
 * so that a damaged first row is refused and not passed over.
 *
 * @param bytes - the whole file
 * @param name - the file's name, for messages and for the angle that it may name
 * @param orientationDeg - angle of incidence in use, which picks among several
 * @returns rows in the file's order; frequencies rise strictly
 * @throws {InputError} with line and column where the table is damaged, ambiguous or absent, or has no column for the angle
 * @example parseMicrophoneCalibration(bytes of "* front\n20 -0.7\n1000 0.3\n", "mic.txt").levelDb // [-0.7, 0.3]
 */
export function parseMicrophoneCalibration(
  bytes: Uint8Array,
  name: string,
  orientationDeg: number | null = null,
): ReadCalibration {
  const frequencyHz: number[] = [];
  const levelDb: number[] = [];
  let columns = 0;
  let ambiguousLine = 0;
  let hasPoint = false;
  const words: string[] = [name];
  let angles: AngleColumns | null = null;
  let picked = 1;
  for (const [index, line] of textLines(bytes, (what, line, column) => damaged(what, name, line, column)).entries()) {
    const number = index + 1;
    if (line.trim() === "") continue;
    if (COMMENT.test(line)) {
      if (columns === 0) angles = angleColumns(line, number) ?? angles;
      if (columns === 0) words.push(line);
      continue;
    }
    const row = splitRow(line);
    const first = row.fields[0]!;
    const isHeader = parseNumber(first.text) === null && !/^\s*[-+.,\d]/.test(line);
    if (columns === 0 && isHeader && !line.trimStart().startsWith("<")) {
      angles = angleColumns(line, number) ?? angles;
      words.push(line);
      continue;
    }
    const values = readNumbers(row, angles, name, number);
    if (columns === 0) {
      columns = values.length;
      picked = angles ? pickColumn(angles, orientationDeg, name) : 1;
    }
    if (values.length !== columns) {
      const found = `${values.length} column(s), the rows above have ${columns}`;
      throw damaged(`The row has ${found}.`, name, number, row.fields.at(-1)!.column);
    }
    const frequency = values[0]!;
    const level = values[picked]!;
    const previous = frequencyHz.at(-1) ?? 0;
    if (frequency <= previous) {
      const what = `The frequency ${frequency} Hz does not rise above ${previous} Hz of the row before.`;
      throw damaged(what, name, number, first.column);
    }
    if (Math.abs(level) > LARGEST_DEVIATION_DB) {
      const what = `${level} dB is no microphone's deviation from flat; up to ${LARGEST_DEVIATION_DB} dB is accepted.`;
      throw damaged(what, name, number, row.fields[picked]!.column);
    }
    if (row.commaSeparated && columns >= 3) ambiguousLine ||= number;
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
  return { frequencyHz, levelDb, angleDeg: angles ? angles.degrees[picked - 1]! : onlyAngle(words) };
}

/** The angles of a table's columns, in their order. */
interface AngleColumns {
  readonly degrees: readonly number[];
  readonly line: number;
}

function angleColumns(words: string, line: number): AngleColumns | null {
  const degrees = anglesIn(words);
  return degrees.length > 1 ? { degrees, line } : null;
}

function pickColumn({ degrees, line }: AngleColumns, orientationDeg: number | null, name: string): number {
  const picked = degrees.findIndex((angle) => Math.abs(angle - (orientationDeg ?? Infinity)) <= SAME_ANGLE_DEG);
  if (picked >= 0) return picked + 1;
  const held = degrees.map((angle) => `${angle}°`).join(", ");
  const use = orientationDeg === null ? "the session does not say which is in use" : `none is for ${orientationDeg}°`;
  throw new InputError(`The table has columns for ${held}, and ${use}.`, {
    where: `${name}, line ${line}, column 1`,
    remedy: `give microphone.orientationDeg in session.json as one of ${degrees.join(", ")}`,
  });
}

/** What all the words together say, if it is one thing. */
function onlyAngle(words: readonly string[]): number | null {
  const [first, ...others] = new Set(words.flatMap(anglesIn));
  return first === undefined || others.length > 0 ? null : first;
}

function readNumbers({ fields }: CalibrationRow, angles: AngleColumns | null, name: string, line: number): number[] {
  const values = fields.map(({ text, column }) => {
    const value = parseNumber(text);
    if (value !== null) return value;
    throw damaged(notANumber(text), name, line, column);
  });
  if (angles && values.length !== 1 + angles.degrees.length) {
    const what = `The row has ${values.length} column(s); line ${angles.line} names ${angles.degrees.length} angles.`;
    throw damaged(what, name, line, fields[0]!.column);
  }
  if (!angles && (values.length < 2 || values.length > 3)) {
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
