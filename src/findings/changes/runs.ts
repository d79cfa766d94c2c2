import type { ChangedQuantity } from "../../schema/changes.js";
import { OCTAVES, THIRD_OCTAVES } from "../../standards/iec61260.js";
import { hertz, listed } from "../../words/numbers.js";
import { fromTo, sizeWords } from "./figures.js";
import { sizeOf, topicOf } from "./tell.js";

/** Bands that follow one another and have changed the same way. */
interface Run {
  readonly bands: readonly ChangedQuantity[];
  /** The one that has changed most. */
  readonly most: ChangedQuantity;
}

/**
 * Joins bands that have really changed into runs: neighbours, of one verdict and one direction.
 *
 * @param entries - one for each band
 */
function runsOf(entries: readonly ChangedQuantity[]): Run[] {
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

/** Runs of one verdict and one direction, to be told in one sentence. */
export interface Story {
  readonly runs: readonly Run[];
  readonly most: ChangedQuantity;
}

/** All that has really changed, by verdict and direction. */
export function storiesOf(entries: readonly ChangedQuantity[]): Story[] {
  const stories: Run[][] = [];
  for (const run of runsOf(entries)) {
    const known = stories.find(([first]) => alike(first!.most, run.most));
    if (known) known.push(run);
    else stories.push([run]);
  }
  return stories.map((runs) => ({
    runs,
    most: runs.map(({ most }) => most).reduce((a, b) => (sizeOf(b) > sizeOf(a) ? b : a)),
  }));
}

/** "at 80 Hz to 160 Hz and 1 kHz". */
export function whereWords({ runs }: Pick<Story, "runs">): string {
  return `at ${listed(runs.map(({ bands }) => spanWords(bands.map(({ bandHz }) => bandHz!))))}`;
}

/** "80 Hz to 160 Hz". */
export function spanWords(bandsHz: readonly number[]): string {
  const [first, last] = [bandsHz[0]!, bandsHz.at(-1)!];
  return first === last ? hertz(first) : `${hertz(first)} to ${hertz(last)}`;
}

/** Where in a story most has changed, and by how much: ", most at 125 Hz, by 60 ms (0.36 to 0.30 s)". */
export function mostWords({ runs, most }: Story): string {
  const several = runs.length > 1 || runs[0]!.bands.length > 1;
  return `${several ? `, most at ${hertz(most.bandHz)}` : ""}, by ${sizeWords(most)} (${fromTo(most)})`;
}

/** Frequencies of third octaves or octaves, those that follow one another joined. */
export function joined(bandsHz: readonly number[], fraction: 1 | 3): number[][] {
  const bands = fraction === 1 ? OCTAVES : THIRD_OCTAVES;
  const place = (hz: number): number => bands.findIndex(({ nominalHz }) => nominalHz === hz);
  const spans: number[][] = [];
  for (const hz of [...bandsHz].sort((a, b) => a - b)) {
    const last = spans.at(-1)?.at(-1);
    if (last !== undefined && place(hz) === place(last) + 1) spans.at(-1)!.push(hz);
    else spans.push([hz]);
  }
  return spans;
}
