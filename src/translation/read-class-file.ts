import { InputError } from "../errors.js";
import type { Session } from "../model.js";
import { readFrequencyTable } from "../schema/frequency-table.js";
import type { Field } from "../schema/table-row.js";
import { type Damage, notANumber, parseNumber } from "../schema/table-text.js";
import type { PlaybackClass } from "../standards/playback-classes/playback-class.js";

type StatedClass = NonNullable<Session["playbackClasses"]>[number];

const COLUMNS = ["frequency", "low", "typical", "high"] as const;
/** Words that belong to one column alone; a header in another language passes. */
const NAMES = [
  /\bhz\b|^freq|^f\b/i,
  /\b(low|lower|poor|min)\b/i,
  /\b(typical|ordinary|mean)\b/i,
  /\b(high|upper|good|max)\b/i,
];
/** Where levels are aligned: a class that does not state it all has no place on the scale of the others. */
const COVERED_HZ = [200, 4000] as const;
/** Steps of an octave over that range. A choice of ours. */
const LEAST_ROWS = 6;
/** An octave, with what nominal frequencies are rounded by: more would be drawn, not stated. A choice of ours. */
const WIDEST_STEP = 2.02;
/** Nothing that plays music deviates by more; such a column holds something else. A choice of ours. */
const LARGEST_DB = 120;

interface Row {
  readonly frequencyHz: number;
  /** Poor, ordinary and good member. */
  readonly levelsDb: readonly [number, number, number];
}

/**
 * Reads a playback class of one's own: rows of frequency in Hz and three deviations from neutral in dB, of a poor, an ordinary
 * and a good member.
 *
 * How it may be written: `readFrequencyTable`. Between two rows all three are straight over log frequency; outside the rows
 * nothing is stated. The height of the whole table does not matter: the ordinary member is aligned over 200 Hz-4 kHz.
 *
 * @param stated - what the session says of it
 * @throws {InputError} with line and column where a cell is missing or no number, the rows do not rise, members are out of
 *   order, steps are wider than an octave, or the table does not cover 200 Hz to 4 kHz
 */
export function readClassFile(bytes: Uint8Array, stated: StatedClass): PlaybackClass {
  const { id, name, file, loses = null, mono, levelDba = null, noiseDba = null } = stated;
  const damage: Damage = (what, line, column) =>
    new InputError(what, {
      where: `${file}, line ${line}, column ${column}`,
      remedy:
        "give rows of frequency in Hz and, as deviation from neutral in dB, the poor (low), the ordinary (typical) and the good " +
        "(high) member, rising in frequency in steps of an octave or less, at least from 200 Hz to 4 kHz, " +
        "parted by semicolon, tab or comma; put # before lines of words",
    });
  const { rows, firstLine } = readFrequencyTable(bytes, damage, {
    mostColumns: COLUMNS.length,
    leastRows: LEAST_ROWS,
    checkHeader: (fields, line) => {
      checkHeader(fields, line, damage);
    },
    readRow: (fields, line) => readRow(fields, line, damage),
  });
  for (const [k, { frequencyHz, line }] of rows.entries()) {
    const before = rows[k - 1];
    if (before && frequencyHz > WIDEST_STEP * before.frequencyHz) {
      throw damage(`From ${before.frequencyHz} Hz to ${frequencyHz} Hz is more than an octave.`, line, 1);
    }
  }
  const [fromHz, toHz] = [rows[0]!.frequencyHz, rows.at(-1)!.frequencyHz];
  if (fromHz > COVERED_HZ[0] || toHz < COVERED_HZ[1]) {
    const what = `The table goes from ${fromHz} Hz to ${toHz} Hz; levels are aligned over 200 Hz to 4 kHz, which it must cover.`;
    throw damage(what, fromHz > COVERED_HZ[0] ? firstLine : rows.at(-1)!.line, 1);
  }
  return {
    ...{ id, name, loses, mono, label: "stated in the session", source: file },
    levelDba: { typical: levelDba, noise: noiseDba, source: "stated in the session" },
    envelope: rows.map(({ frequencyHz, levelsDb }) => [frequencyHz, ...levelsDb] as const),
  };
}

function checkHeader(fields: readonly Field[], line: number, damage: Damage): void {
  if (fields.length < COLUMNS.length) return;
  const [first] = fields;
  if (/\bkhz\b/i.test(first!.text)) throw damage(`The column "${first!.text}" is not in Hz.`, line, first!.column);
  for (const [n, { text, column }] of fields.entries()) {
    const belongs = NAMES.findIndex((name) => name.test(text));
    if (belongs === n || (belongs < 0 && n > 0)) continue;
    throw damage(`The column "${text}" stands where ${COLUMNS[n] ?? "nothing"} is read.`, line, column);
  }
}

function readRow(fields: readonly Field[], line: number, damage: Damage): Row {
  if (fields.length !== COLUMNS.length) {
    const what = `The row has ${fields.length} column(s); frequency, low, typical and high are read.`;
    throw damage(what, line, (fields[COLUMNS.length] ?? fields.at(-1)!).column);
  }
  const [frequencyHz, low, typical, high] = fields.map(({ text, column }, n) => {
    const value = parseNumber(text);
    if (value === null) throw damage(notANumber(text), line, column);
    if (n > 0 && Math.abs(value) > LARGEST_DB) throw damage(`${value} dB is no deviation of a device.`, line, column);
    return value;
  }) as [number, number, number, number];
  if (low > typical) {
    throw damage(`The poor member (${low} dB) lies above the ordinary one (${typical} dB).`, line, fields[1]!.column);
  }
  if (typical > high) {
    throw damage(`The ordinary member (${typical} dB) lies above the good one (${high} dB).`, line, fields[2]!.column);
  }
  return { frequencyHz, levelsDb: [low, typical, high] };
}
