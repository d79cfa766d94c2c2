import type { MicrophoneCalibration } from "../model.js";
import { calibrationAt } from "./calibration-at.js";

/** Something about a table that no microphone has. */
export type Suspicion =
  | {
      readonly kind: "jump";
      readonly fromHz: number;
      readonly toHz: number;
      readonly stepDb: number;
      readonly limitDb: number;
    }
  | { readonly kind: "range"; readonly rangeDb: number; readonly limitDb: number }
  | { readonly kind: "level"; readonly meanDb: number; readonly limitDb: number }
  | { readonly kind: "gap"; readonly fromHz: number; readonly toHz: number };

/** What is judged, and what every recording's figures rest on: the third octaves from 25 Hz to 16 kHz. */
const JUDGED_HZ = [25, 16_000] as const;
const THIRD = 10 ** 0.1;
/**
 * A capsule and its input fall by 12 dB per octave at most (second order); ripple and rounding between close rows come
 * to 3 dB. A lost sign or a slipped decimal point is a step of more. A choice of ours.
 */
const STEP_DB = 3;
const SLOPE_DB_PER_OCTAVE = 12;
/**
 * Between the highest and the lowest value. Measured: 3.9 dB in a table for 90°, 5.7 dB in one for 0° (condenser, third octaves from
 * 25 Hz to 16 kHz); simple capsules stay within 12 dB of flat. A choice of ours.
 */
const RANGE_DB = 24;
/** A table of deviations lies around 0 in its middle; a sensitivity (-38 dB) or a level (94 dB) does not. A choice of ours. */
const MEAN_DB = 10;
const MIDDLE_HZ = [250, 4000] as const;

/**
 * Looks for what no measuring microphone has: each of it is more likely a damaged table, or one of something else.
 *
 * Rows above 20 kHz are left out: a last row that jumps back to 0 there is a habit of some tables, and does no harm.
 *
 * @param sweptHz - the band that was measured
 * @remarks Limits: choices of ours, reasons beside them
 */
export function suspectCalibration(table: MicrophoneCalibration, sweptHz: readonly [number, number]): Suspicion[] {
  const rows = table.frequencyHz
    .map((frequencyHz, n) => ({ frequencyHz, levelDb: table.levelDb[n]! }))
    .filter(({ frequencyHz }) => frequencyHz <= 20_000);
  return [...jumps(rows), ...tooWide(rows), ...notAroundZero(table), ...gaps(table, sweptHz)];
}

interface Row {
  readonly frequencyHz: number;
  readonly levelDb: number;
}

/** The widest step between neighbours, if it is too wide. */
function jumps(rows: readonly Row[]): Suspicion[] {
  let worst: Extract<Suspicion, { kind: "jump" }> | null = null;
  for (const [n, row] of rows.entries()) {
    const before = rows[n - 1];
    if (!before) continue;
    const limitDb = STEP_DB + SLOPE_DB_PER_OCTAVE * Math.log2(row.frequencyHz / before.frequencyHz);
    const stepDb = row.levelDb - before.levelDb;
    const excess = Math.abs(stepDb) - limitDb;
    if (excess > 0 && excess > (worst ? Math.abs(worst.stepDb) - worst.limitDb : 0)) {
      worst = { kind: "jump", fromHz: before.frequencyHz, toHz: row.frequencyHz, stepDb, limitDb };
    }
  }
  return worst ? [worst] : [];
}

function tooWide(rows: readonly Row[]): Suspicion[] {
  const levels = rows.filter(({ frequencyHz }) => isJudged(frequencyHz)).map(({ levelDb }) => levelDb);
  const rangeDb = levels.length === 0 ? 0 : Math.max(...levels) - Math.min(...levels);
  return rangeDb > RANGE_DB ? [{ kind: "range", rangeDb, limitDb: RANGE_DB }] : [];
}

function notAroundZero(table: MicrophoneCalibration): Suspicion[] {
  const places: number[] = [];
  for (let hz: number = MIDDLE_HZ[0]; hz <= MIDDLE_HZ[1]; hz *= THIRD) places.push(calibrationAt(table, hz));
  const meanDb = places.reduce((sum, level) => sum + level, 0) / places.length;
  return Math.abs(meanDb) > MEAN_DB ? [{ kind: "level", meanDb, limitDb: MEAN_DB }] : [];
}

/** Beyond its ends the table's last value is held, which is a guess: of less than a third octave it is a small one. */
function gaps({ frequencyHz }: MicrophoneCalibration, [startHz, endHz]: readonly [number, number]): Suspicion[] {
  const neededHz = [Math.max(JUDGED_HZ[0], startHz), Math.min(JUDGED_HZ[1], endHz)] as const;
  const [firstHz, lastHz] = [frequencyHz[0]!, frequencyHz.at(-1)!];
  const found: Suspicion[] = [];
  if (firstHz > neededHz[0] * THIRD ** 1.01) found.push({ kind: "gap", fromHz: neededHz[0], toHz: firstHz });
  if (lastHz * THIRD ** 1.01 < neededHz[1]) found.push({ kind: "gap", fromHz: lastHz, toHz: neededHz[1] });
  return found;
}

function isJudged(frequencyHz: number): boolean {
  return frequencyHz >= JUDGED_HZ[0] / THIRD && frequencyHz <= JUDGED_HZ[1] * THIRD;
}
