import { REGIONS } from "../../standards/regions.js";
import { fixed, hertz, listed } from "../../words/numbers.js";
import type { HeardOn } from "../drift.js";
import { DRIFT } from "../limits.js";
import type { DriftRegion, Range } from "./drift-result.js";

/** All words of the drift stand here. */

/** Above the first, and above the second, too much and too little are called by other names. */
const MIDDLE_FROM_HZ = 355;
const TREBLE_FROM_HZ = 2800;
/** More is not read. */
const MOST_STRETCHES = 3;
/** Neighbours that drift by about the same are told as one, dB. */
const ALIKE_DB = 2;

/** Neighbouring regions that drift the same way. */
interface Stretch {
  readonly fromHz: number;
  readonly toHz: number;
  /** Of the region that drifts most; the range holds those of all. */
  readonly driftDb: number;
  readonly rangeDb: Range;
}

/**
 * Says where a mix drifts: regions that drift by 1.5 dB or more and whose range has one sign.
 *
 * What this room adds to what a device does to every mix is what it does on neutral monitors, and is said there, once.
 *
 * @param uncontrolledBelowHz - nothing is said of what lies below it
 * @returns null where there is nothing worth a sentence
 * @example "If you correct by ear, mixes balanced on nears come out 2 to 4 dB heavy below 90 Hz on mains."
 */
export function driftWords(
  mixedOn: string,
  heard: Pick<HeardOn, "id" | "kind">,
  regions: readonly DriftRegion[],
  uncontrolledBelowHz: number | null,
): string | null {
  if (heard.kind === "class" || heard.kind === "device") return null;
  const stretches = worthASentence(regions, uncontrolledBelowHz ?? 0);
  if (stretches.length === 0) return null;
  const what = listed(stretches.map(stretchWords));
  if (heard.kind === "neutral") {
    return `If you correct by ear, mixes balanced on ${mixedOn} come out ${what} on neutral monitors; phones, cars and the like add to that what they do to every mix.`;
  }
  return heard.id === mixedOn
    ? `Even if you correct by ear, ${mixedOn} itself still plays your mixes ${what}.`
    : `If you correct by ear, mixes balanced on ${mixedOn} come out ${what} on ${heard.id}.`;
}

function worthASentence(regions: readonly DriftRegion[], aboveHz: number): Stretch[] {
  const stretches: Stretch[] = [];
  let lastIndex = -2;
  for (const [index, one] of regions.entries()) {
    const { toHz } = REGIONS[index]!;
    const fromHz = Math.max(REGIONS[index]!.fromHz, aboveHz);
    const { driftDb, rangeDb } = one;
    if (driftDb === null || rangeDb === null || Math.abs(driftDb) < DRIFT.clearDb.value) continue;
    if (rangeDb[0] * rangeDb[1] <= 0) continue;
    const last = stretches.at(-1);
    const here = { fromHz, toHz, driftDb, rangeDb };
    if (last && lastIndex === index - 1 && isAlike(last, here)) {
      const worse = Math.abs(driftDb) > Math.abs(last.driftDb) ? here : last;
      const both: Range = [Math.min(last.rangeDb[0], rangeDb[0]), Math.max(last.rangeDb[1], rangeDb[1])];
      stretches[stretches.length - 1] = { ...worse, fromHz: last.fromHz, toHz, rangeDb: both };
    } else {
      stretches.push(here);
    }
    lastIndex = index;
  }
  const strongest = [...stretches].sort((a, b) => Math.abs(b.driftDb) - Math.abs(a.driftDb)).slice(0, MOST_STRETCHES);
  return stretches.filter((one) => strongest.includes(one));
}

function isAlike(a: Stretch, b: Stretch): boolean {
  return a.driftDb * b.driftDb > 0 && Math.abs(a.driftDb - b.driftDb) <= ALIKE_DB;
}

function stretchWords({ fromHz, toHz, driftDb, rangeDb }: Stretch): string {
  const sizes = rangeDb.map(Math.abs).sort((a, b) => a - b);
  const [least, most] = sizes.map((size) => fixed(size, sizes[0]! < 2 ? 1 : 0));
  const size = least === most ? `about ${most!}` : `${least!} to ${most!}`;
  const pair = toHz <= MIDDLE_FROM_HZ ? BASS : fromHz >= TREBLE_FROM_HZ ? TREBLE : MIDDLE;
  return `${size} dB ${driftDb > 0 ? pair.more : pair.less} ${placeWords(fromHz, toHz)}`;
}

const BASS = { more: "heavy", less: "thin" };
const MIDDLE = { more: "forward", less: "held back" };
const TREBLE = { more: "bright", less: "dull" };

function placeWords(fromHz: number, toHz: number): string {
  if (fromHz === REGIONS[0]!.fromHz) return `below ${hertz(toHz)}`;
  if (toHz === REGIONS.at(-1)!.toHz) return `above ${hertz(fromHz)}`;
  return `from ${hertz(fromHz)} to ${hertz(toHz)}`;
}
