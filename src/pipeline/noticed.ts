import type { Jump } from "../impulse/jumps.js";
import type { StrangeCell } from "../impulse/strange-cells.js";
import type { SweepBreak } from "../impulse/sweep-break.js";

/** What was noticed while one sweep was deconvolved. */
export interface Noticed {
  /** Where the sweep begins and ends in the file, seconds. */
  readonly spanS: readonly [number, number];
  /** File second of the instant of the start frequency. */
  readonly zeroS: number;
  /** After so long the response has sunk into the noise. */
  readonly decayS: number;
  /** Mean square of the recorded sweep re full scale, dB. */
  readonly sweepDb: number;
  readonly jumps: readonly Jump[];
  readonly strange: readonly StrangeCell[];
  /** Where its parts do not arrive together. */
  readonly broken: SweepBreak | null;
  /**
   * Whether there are harmonics without end, so that nothing else can be told; found out when it is asked for.
   *
   * @param noiseDb - how far the noise under the sweep is over that of the lead
   */
  isDistorted(noiseDb: (frequencyHz: number) => number): boolean;
}

interface Timed {
  readonly atS: number;
}

/** Events nearer than this are one. */
export const TOGETHER_S = 0.35;

/** How many times something happened. */
export function countSeparate(events: readonly Timed[]): number {
  const times = events.map(({ atS }) => atS).sort((a, b) => a - b);
  return times.filter((atS, n) => n === 0 || atS - times[n - 1]! > TOGETHER_S).length;
}

/** In how many tenths of a second something happened. */
export function countBlocks(events: readonly Timed[]): number {
  return new Set(events.map(({ atS }) => Math.round(10 * atS))).size;
}

/** Nearer than this two events are at one note. */
const SAME_NOTE_OCTAVES = 1 / 6;

/**
 * Whether what happened under one sweep happened again at the same notes of another: then the level is the cause, or something that
 * sounds along, and no accident.
 *
 * @param events - of each sweep
 * @param growthS - of the sweep; null where it is not known
 */
export function comesBack(
  noticed: readonly Pick<Noticed, "zeroS">[],
  events: readonly (readonly Timed[])[],
  growthS: number | null,
): boolean {
  if (growthS === null) return false;
  const within = SAME_NOTE_OCTAVES * Math.LN2 * growthS;
  const after = events.map((some, sweep) => some.map(({ atS }) => atS - noticed[sweep]!.zeroS));
  const [fewer, ...others] = after.filter(({ length }) => length > 0).sort((a, b) => a.length - b.length);
  return others.some((other) => fewer!.every((atS) => other.some((again) => Math.abs(again - atS) <= within)));
}
