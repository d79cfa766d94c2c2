import type { Jump } from "../impulse/jumps.js";
import type { StrangeCell } from "../impulse/strange-cells.js";

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
