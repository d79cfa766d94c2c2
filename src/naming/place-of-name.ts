import type { Belongs } from "./divide-unknown.js";
import type { NamePart } from "./parts-of-name.js";
import type { NamedPlace } from "./named-place.js";

/** What a file holds, as far as its name has to fit to it. */
export type Holds = "reel" | "one sweep" | "impulse response";

export interface ReadName {
  /** Null: a name without a side, or a reel. */
  readonly channel: "L" | "R" | "both" | null;
  readonly place: NamedPlace;
  /** The name says nothing of a place. */
  readonly isPlaceAssumed: boolean;
  /** What contradicts the content. */
  readonly contradiction: string | null;
}

const MIX: NamedPlace = { kind: "mix", words: [], number: null };

/**
 * Tells the side and the place that a name gives, now that it is known what the file holds.
 *
 * In the name of a reel "left" is a place. A single sweep comes from one loudspeaker: there a letter names it, or else the first
 * "left" or "right", and what is left over is a place.
 */
export function placeOfName(parts: readonly NamePart[], belongs: ReadonlyMap<string, Belongs>, holds: Holds): ReadName {
  const letters = new Set(parts.flatMap(({ says }) => (says.kind === "letter" ? [says.channel] : [])));
  const sides = parts.flatMap(({ text, says }) => (says.kind === "side" ? [{ text, channel: says.channel }] : []));
  const isBoth = letters.size > 1 || parts.some(({ says }) => says.kind === "both");
  const named = mostExact(parts);
  const words = parts
    .filter(({ text, says }) => says.kind === "unknown" && belongs.get(text.toLowerCase()) === "place")
    .map(({ text }) => text);
  if (holds === "reel") {
    // Beside the name of the seat, "left" is as good as a letter.
    const isSide = named?.kind === "mix" && sides.length > 0;
    const side = [...letters][0] ?? (isSide ? sides[0]!.channel : null);
    const place = joined(named, words, isSide ? [] : sides);
    const contradiction = side === null || isBoth ? null : `its name says ${side}, but it holds a reel of both sides`;
    return { channel: null, contradiction, ...place };
  }
  const [letter] = letters;
  if (isBoth) return { channel: "both", contradiction: null, ...joined(named, words, sides) };
  if (letter) return { channel: letter, contradiction: null, ...joined(named, words, sides) };
  return { channel: sides[0]?.channel ?? null, contradiction: null, ...joined(named, words, sides.slice(1)) };
}

/** A numbered place is more exact than one by name, and any more than the mix position, which others lie around. */
function mostExact(parts: readonly NamePart[]): NamedPlace | null {
  const places = parts.flatMap(({ says }) => (says.kind === "place" ? [says.place] : []));
  const others = places.filter(({ kind }) => kind !== "mix");
  return others.find(({ number }) => number !== null) ?? others[0] ?? places[0] ?? null;
}

function joined(
  named: NamedPlace | null,
  unknown: readonly string[],
  sides: readonly { readonly text: string }[],
): Pick<ReadName, "place" | "isPlaceAssumed"> {
  const beside = sides.map(({ text }) => text);
  if (named && (named.kind !== "mix" || beside.length === 0)) {
    const more = named.kind === "mix" ? [] : [...beside, ...unknown];
    return { place: { ...named, words: [...named.words, ...more] }, isPlaceAssumed: false };
  }
  if (beside.length > 0) return { place: { kind: "near", words: beside, number: null }, isPlaceAssumed: false };
  if (unknown.length > 0) return { place: { kind: "room", words: unknown, number: null }, isPlaceAssumed: false };
  return { place: MIX, isPlaceAssumed: true };
}
