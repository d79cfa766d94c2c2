import type { ChangedQuantity } from "../../schema/changes.js";
import { OCTAVES, THIRD_OCTAVES } from "../../standards/iec61260.js";
import { hertz } from "../../words/numbers.js";
import { sizeOf, topicOf } from "./tell.js";

/** Bands that follow one another and have changed the same way. */
export interface Run {
  readonly bands: readonly ChangedQuantity[];
  /** The one that has changed most. */
  readonly most: ChangedQuantity;
}

/**
 * Joins bands that have really changed into runs: neighbours, of one verdict and one direction.
 *
 * @param entries - one for each band
 */
export function runsOf(entries: readonly ChangedQuantity[]): Run[] {
  const real = entries
    .filter(({ change, bandHz }) => change === "real" && bandHz !== null)
    .sort((a, b) => a.bandHz! - b.bandHz!);
  const runs: ChangedQuantity[][] = [];
  for (const entry of real) {
    const last = runs.at(-1)?.at(-1);
    if (last && follows(last, entry) && alike(last, entry)) runs.at(-1)!.push(entry);
    else runs.push([entry]);
  }
  return runs.map((bands) => ({ bands, most: bands.reduce((a, b) => (sizeOf(b) > sizeOf(a) ? b : a)) }));
}

function follows(a: ChangedQuantity, b: ChangedQuantity): boolean {
  const bands = a.fraction === 1 ? OCTAVES : THIRD_OCTAVES;
  const place = (entry: ChangedQuantity): number => bands.findIndex(({ nominalHz }) => nominalHz === entry.bandHz);
  return a.fraction === b.fraction && place(b) === place(a) + 1;
}

function alike(a: ChangedQuantity, b: ChangedQuantity): boolean {
  return topicOf(a) === topicOf(b) && Math.sign(a.difference!) === Math.sign(b.difference!);
}

/** "from 80 Hz to 160 Hz", "at 125 Hz". */
export function rangeWords({ bands }: Pick<Run, "bands">): string {
  const [first, last] = [bands[0]!.bandHz, bands.at(-1)!.bandHz];
  return first === last ? `at ${hertz(first)}` : `from ${hertz(first)} to ${hertz(last)}`;
}

/** " at 125 Hz" where a run holds more bands than the one. */
export function atMost({ bands, most }: Run): string {
  return bands.length === 1 ? "" : ` at ${hertz(most.bandHz)}`;
}
