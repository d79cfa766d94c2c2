import { InputError } from "../../errors.js";
import { readFrequencyTable } from "../../schema/frequency-table.js";
import type { Field } from "../../schema/table-row.js";
import { type Damage, notANumber, parseNumber } from "../../schema/table-text.js";
import type { MaskSegment } from "../../standards/limit-mask.js";
import type { Target } from "./target.js";
import { misnamedColumn } from "./target-header.js";

/** A table that ends below cannot be in Hz: it is in kHz, or re some frequency. */
const LOWEST_LAST_HZ = 30;
/** A table that begins above holds nothing that is heard. */
const HIGHEST_FIRST_HZ = 20_000;
/** No curve for a monitor spans more; such a column holds something else. */
const LARGEST_SPAN_DB = 60;
const MOST_COLUMNS = 4;

interface Row {
  readonly frequencyHz: number;
  readonly levelDb: number;
  readonly lowerDb: number | null;
  readonly upperDb: number | null;
}

/**
 * Reads a target of one's own: rows of frequency in Hz, level in dB and, if wanted, a lower and an upper limit.
 *
 * Limits are deviations from the curve in dB, so lower is 0 or below and upper 0 or above: the whole curve floats on what was
 * measured, and limits that did not float with it would say nothing. An empty limit is none; between two rows a side has a
 * limit when both rows have one. Curve and limits are straight over log frequency between rows; outside the rows there is no
 * target. Absolute levels may have any height, since the offset is fitted.
 *
 * How it may be written: `readFrequencyTable`. Where words above the table name units or columns they must name these.
 *
 * @param id - what the session calls it
 * @param name - the file's name, for messages
 * @throws {InputError} with line and column where the table is damaged, ambiguous, in other units or absent
 * @example readTargetFile(bytes of "Hz,dB\n20,3\n20000,-2\n", "mine.csv", "mine").points.length // 2
 */
export function readTargetFile(bytes: Uint8Array, name: string, id: string): Target {
  const damage: Damage = (what, line, column) =>
    new InputError(what, {
      where: `${name}, line ${line}, column ${column}`,
      remedy:
        "give rows of frequency in Hz, level in dB and, if wanted, lower and upper limit as deviations from the curve in dB, " +
        "rising in frequency, parted by semicolon, tab or comma; put # before lines of words",
    });
  const rows = readRows(bytes, damage);
  return {
    id,
    source: name,
    points: rows.map(({ frequencyHz, levelDb }) => ({ frequencyHz, levelDb })),
    limits: limitSegments(rows, name),
  };
}

function readRows(bytes: Uint8Array, damage: Damage): readonly Row[] {
  const { rows, firstLine } = readFrequencyTable(bytes, damage, {
    mostColumns: MOST_COLUMNS,
    leastRows: 2,
    checkHeader(fields, line) {
      const misnamed = misnamedColumn(fields);
      if (misnamed) throw damage(misnamed.what, line, misnamed.column);
    },
    readRow: (fields, line) => readRow(fields, line, damage),
  });
  refuseOtherUnits(rows, firstLine, damage);
  return rows;
}

function readRow(fields: readonly Field[], line: number, damage: Damage): Row {
  if (fields.length < 2 || fields.length > MOST_COLUMNS) {
    const what = `The row has ${fields.length} column(s); frequency, level and perhaps two limits are read.`;
    throw damage(what, line, (fields[MOST_COLUMNS] ?? fields[0]!).column);
  }
  const read = ({ text, column }: Field): number => {
    const value = parseNumber(text);
    if (value === null) throw damage(notANumber(text), line, column);
    return value;
  };
  const limit = (field: Field | undefined): number | null => (!field || field.text === "" ? null : read(field));
  const [frequency, level, lower, upper] = fields as [Field, Field, Field?, Field?];
  const row = { frequencyHz: read(frequency), levelDb: read(level), lowerDb: limit(lower), upperDb: limit(upper) };
  if (row.lowerDb !== null && row.lowerDb > 0) {
    const what = `The lower limit ${row.lowerDb} dB lies above the curve: limits are deviations from it, lower ones 0 or below.`;
    throw damage(what, line, lower!.column);
  }
  if (row.upperDb !== null && row.upperDb < 0) {
    const what = `The upper limit ${row.upperDb} dB lies below the curve: limits are deviations from it, upper ones 0 or above.`;
    throw damage(what, line, upper!.column);
  }
  return row;
}

function refuseOtherUnits(rows: readonly Row[], line: number, damage: Damage): void {
  const lastHz = rows.at(-1)!.frequencyHz;
  if (lastHz < LOWEST_LAST_HZ) {
    const what = `The table ends at ${lastHz} Hz: its frequencies seem to be in kHz, or relative to one of them.`;
    throw damage(what, line, 1);
  }
  if (rows[0]!.frequencyHz > HIGHEST_FIRST_HZ) {
    throw damage(`The table begins at ${rows[0]!.frequencyHz} Hz, above everything that is measured.`, line, 1);
  }
  const levels = rows.map(({ levelDb }) => levelDb);
  const spanDb = Math.max(...levels) - Math.min(...levels);
  if (spanDb > LARGEST_SPAN_DB) {
    const what = `The levels span ${spanDb} dB; no monitor's target does. Up to ${LARGEST_SPAN_DB} dB are accepted.`;
    throw damage(what, line, 1);
  }
}

/** A limit at each row, and between rows that both have one. */
function limitSegments(rows: readonly Row[], name: string): MaskSegment[] {
  const own = { origin: "own", confidence: "high", note: name } as const;
  const ends = (from: number | null, to: number | null): readonly [number, number] | null =>
    from === null || to === null ? null : [from, to];
  return rows.flatMap((row, k) => {
    const next = rows[k + 1] ?? row;
    return [row, next].map((to) => ({
      fromHz: row.frequencyHz,
      toHz: to.frequencyHz,
      lower: ends(row.lowerDb, to.lowerDb),
      upper: ends(row.upperDb, to.upperDb),
      ...own,
    }));
  });
}
