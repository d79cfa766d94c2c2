import type { MonitorResult } from "../../model.js";
import { ALIGNMENT_HZ } from "../band-curve.js";

/** One third octave with its level. */
export interface LevelRow {
  readonly nominalHz: number;
  readonly levelDb: number;
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
 * @returns by nominal frequency; `awayDb` null where the monitor has no target or the target says nothing
 */
export function alignedLevels(
  rows: readonly LevelRow[],
  by: ReadonlySet<number>,
  target: MonitorResult["target"],
): Map<number, { readonly levelDb: number; readonly awayDb: number | null }> {
  const targetAt = new Map(target?.bands.map(({ nominalHz, targetDb }) => [nominalHz, targetDb]));
  const offsetDb = mean(rows.filter(({ nominalHz }) => by.has(nominalHz)).map(({ levelDb }) => levelDb));
  const inTarget = [...by].map((hz) => targetAt.get(hz) ?? null);
  const targetOffsetDb = inTarget.includes(null) ? null : mean(inTarget.map((level) => level!));
  return new Map(
    rows.map(({ nominalHz, levelDb }) => {
      const targetDb = targetAt.get(nominalHz) ?? null;
      const own = levelDb - offsetDb;
      const awayDb = targetDb === null || targetOffsetDb === null ? null : Math.abs(own - (targetDb - targetOffsetDb));
      return [nominalHz, { levelDb: own, awayDb }];
    }),
  );
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
