import type { ChangedQuantity } from "../../schema/changes.js";
import { listed } from "../../words/numbers.js";
import { joined, spanWords, type Story } from "./runs.js";
import { topicOf } from "./tell.js";

/** Within so much of an octave's middle lie its own third octaves. */
const INSIDE = 10 ** 0.11;

/** Whether two bands are one, or a third octave and the octave it is in. */
export function inOneBand(a: ChangedQuantity, b: ChangedQuantity): boolean {
  if (a.fraction === b.fraction) return a.bandHz === b.bandHz;
  return Math.max(a.bandHz! / b.bandHz!, b.bandHz! / a.bandHz!) <= INSIDE;
}

/** Whether a mean over the places has changed for real as a band at the mix position has: in that band, that way, to that effect. */
export function saysTheSame(room: ChangedQuantity, atMix: ChangedQuantity): boolean {
  return (
    room.change === "real" &&
    atMix.change === "real" &&
    topicOf(room) === topicOf(atMix) &&
    Math.sign(room.difference!) === Math.sign(atMix.difference!) &&
    inOneBand(room, atMix)
  );
}

/** What is to be added where means over the places say the same as the mix position, and in which bands if not in all. */
export function alsoInRoom(own: readonly ChangedQuantity[], quantity: string, { runs }: Story): string {
  const bands = runs.flatMap((run) => run.bands);
  const means = own.filter((one) => one.quantity === quantity);
  const same = bands.filter((band) => means.some((mean) => saysTheSame(mean, band)));
  if (same.length === 0) return "";
  const where = joined(
    same.map(({ bandHz }) => bandHz!),
    bands[0]!.fraction!,
  ).map(spanWords);
  return `; over all places as well${same.length === bands.length ? "" : `, at ${listed(where)}`}`;
}
