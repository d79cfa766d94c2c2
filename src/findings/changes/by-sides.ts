import type { ChangedQuantity, ChangePair } from "../../schema/changes.js";
import { type MonitorChanges, sizeOf } from "./tell.js";

/** What is told of a monitor as one, or of one of its sides by name. */
export interface OfSides {
  /** The monitor, with the side where only that is meant: "mains (left)". */
  readonly subject: string;
  readonly entries: readonly ChangedQuantity[];
}

type Same = (a: ChangedQuantity, b: ChangedQuantity) => boolean;

interface Sided {
  readonly side: string;
  readonly entry: ChangedQuantity;
}

/**
 * Takes the channels of a monitor together: of each thing the entry that has changed most, and where the sides have really changed in
 * different directions each side's own, since none can speak for the other.
 *
 * @param entriesOf - what one channel shows
 * @param same - whether two entries are of one band or one mode
 */
export function bySides(
  { subject, measured }: MonitorChanges,
  entriesOf: (pair: ChangePair) => readonly ChangedQuantity[],
  same: Same,
): OfSides[] {
  const all = measured
    .flatMap((pair) => entriesOf(pair).map((entry): Sided => ({ side: sideName(pair), entry })))
    .sort((a, b) => weight(b.entry) - weight(a.entry));
  const things: Sided[][] = [];
  for (const one of all) {
    const known = things.find(([first]) => same(first!.entry, one.entry));
    if (known) known.push(one);
    else things.push([one]);
  }
  const lists = new Map<string, ChangedQuantity[]>();
  const add = (name: string, entry: ChangedQuantity): void => void lists.set(name, [...(lists.get(name) ?? []), entry]);
  for (const thing of things) {
    if (!disagree(thing)) {
      add(subject, thing[0]!.entry);
      continue;
    }
    const sides = new Map([...thing].reverse().map(({ side, entry }) => [side, entry]));
    for (const [side, entry] of sides) add(`${subject} (${side})`, entry);
  }
  return [...lists]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([name, entries]) => ({ subject: name, entries: entries.sort((a, b) => a.bandHz! - b.bandHz!) }));
}

function disagree(thing: readonly Sided[]): boolean {
  const real = thing.filter(({ entry }) => entry.change === "real");
  return real.some(({ entry }) => entry.difference! > 0) && real.some(({ entry }) => entry.difference! < 0);
}

/** What is real comes before what is larger. */
function weight(entry: ChangedQuantity): number {
  return sizeOf(entry) + (entry.change === "real" ? 1000 : 0);
}

function sideName({ channel }: ChangePair): string {
  return channel === "L" ? "left" : channel === "R" ? "right" : "both";
}
