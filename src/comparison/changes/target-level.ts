import type { MonitorResult } from "../../model.js";
import { ALIGNMENT_HZ } from "../band-curve.js";
import type { Goal } from "./reading.js";

/** One third octave with its level. */
export interface LevelRow {
  readonly nominalHz: number;
  readonly levelDb: number;
}

export interface AlignedLevel {
  readonly levelDb: number;
  /** From the monitor's target. */
  readonly deviationDb: number | null;
}

/** Lower than this under its target a monitor has ended: nothing is heard of it there. */
const ENDED_DB = -10;

/** Nearer to the target is better. */
export function targetGoal(before: number | null, after: number | null): Goal | null {
  if (before === null || after === null) return null;
  return { name: "the target curve", before: Math.abs(before), after: Math.abs(after) };
}

/** Why a level says nothing: it lies, before and after, past the end of what the monitor plays. */
export function pastTheEnd(before: number | null, after: number | null): string | null {
  const ended = before !== null && after !== null && Math.max(before, after) < ENDED_DB;
  return ended ? "both lie more than 10 dB under the target: the monitor plays nothing there" : null;
}

/** With fewer bands in common nothing can be aligned: one octave. A choice of ours. */
const LEAST_BANDS = 3;

/** Which of the bands levels are aligned by: those of 200 Hz to 4 kHz; null where there are too few. */
export function alignmentBands(nominalHz: readonly number[]): ReadonlySet<number> | null {
  const inside = nominalHz.filter((hz) => hz >= ALIGNMENT_HZ[0] && hz <= ALIGNMENT_HZ[1]);
  return inside.length >= LEAST_BANDS ? new Set(inside) : null;
}

/**
 * Levels re their mean, in dB, over some of them, and how far each is then from the monitor's target.
 *
 * As where a monitor is held against its target, the mean is one of decibels and the target is laid through the same bands.
 *
 * @returns by nominal frequency; `deviationDb` null where the monitor has no target or the target says nothing
 */
export function alignedLevels(
  rows: readonly LevelRow[],
  by: ReadonlySet<number>,
  target: MonitorResult["target"],
): Map<number, AlignedLevel> {
  const targetAt = new Map(target?.bands.map(({ nominalHz, targetDb }) => [nominalHz, targetDb]));
  const offsetDb = mean(rows.filter(({ nominalHz }) => by.has(nominalHz)).map(({ levelDb }) => levelDb));
  const inTarget = [...by].map((hz) => targetAt.get(hz) ?? null);
  const targetOffsetDb = inTarget.includes(null) ? null : mean(inTarget.map((level) => level!));
  return new Map(
    rows.map(({ nominalHz, levelDb }) => {
      const targetDb = targetAt.get(nominalHz) ?? null;
      const own = levelDb - offsetDb;
      const deviationDb = targetDb === null || targetOffsetDb === null ? null : own - (targetDb - targetOffsetDb);
      return [nominalHz, { levelDb: own, deviationDb }];
    }),
  );
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
