import type { Response } from "../../model.js";

/** A dip in a response. */
export interface MeasuredDip {
  readonly frequencyHz: number;
  /** From the lower of the two heights beside it down to it, dB. */
  readonly depthDb: number;
}

/** A height counts as beside a dip within an octave: the lowest dip of a comb rises that slowly towards the bass. A choice of ours. */
const BESIDE = 2;
/** What is shallower is nobody's trouble: a choice of ours. */
const LEAST_DB = 4;

/**
 * Finds dips of the steady-state response by how far the level rises again on both sides.
 *
 * @param rangeHz - where dips are looked for
 * @returns by rising frequency; of dips without such a rise between them the deepest
 */
export function measuredDips({ frequencyHz, levelDb }: Response, rangeHz: readonly [number, number]): MeasuredDip[] {
  const dips: MeasuredDip[] = [];
  for (let k = 1; k + 1 < frequencyHz.length; k++) {
    const at = frequencyHz[k]!;
    const level = levelDb[k];
    if (level == null || at < rangeHz[0] || at > rangeHz[1]) continue;
    const depthDb = Math.min(riseDb(frequencyHz, levelDb, k, -1), riseDb(frequencyHz, levelDb, k, 1));
    if (depthDb >= LEAST_DB) dips.push({ frequencyHz: at, depthDb });
  }
  return dips;
}

/** How far the level rises on one side before it falls below the dip again. */
function riseDb(
  frequencyHz: readonly number[],
  levelDb: readonly (number | null)[],
  from: number,
  step: 1 | -1,
): number {
  const floor = levelDb[from]!;
  let most = floor;
  for (let k = from + step; k >= 0 && k < frequencyHz.length; k += step) {
    const ratio = frequencyHz[k]! / frequencyHz[from]!;
    const level = levelDb[k];
    if (level == null || Math.max(ratio, 1 / ratio) > BESIDE) break;
    // Of two equally deep places the lower in frequency stands for both.
    if (step > 0 ? level < floor : level <= floor) break;
    most = Math.max(most, level);
  }
  return most - floor;
}
