import type { KnownWord } from "./known-word.js";

/** A place of the microphone as a name has it. */
export interface NamedPlace {
  readonly kind: "mix" | "near" | "room";
  /** As written; places of the same words are the same. */
  readonly words: readonly string[];
  /** Of places that are told apart by their numbers. */
  readonly number: number | null;
}

/** Further from the seat than this is not beside it: a head's reach. A choice of ours. */
const NEAR_CM = 30;

/** The place that begins with a word of a name, and how many words it takes; null if none begins there. */
export function placeAt(words: readonly KnownWord[], index: number): { place: NamedPlace; length: number } | null {
  const word = words[index]!;
  const [next, third, fourth] = [words[index + 1], words[index + 2], words[index + 3]];
  const kind = word.meaning?.kind;
  const place = (of: NamedPlace["kind"], length: number, number: number | null = null) => ({
    place: { kind: of, words: words.slice(index, index + length).map(({ text }) => text), number },
    length,
  });
  if (kind === "mix") return place("mix", 1);
  if (kind === "head" && next && isDirection(next)) return place("near", isLength(third, fourth) ? 4 : 2);
  if (isDirection(word) && isLength(next, third)) return place(byDistance(next), 3);
  if (isLength(word, next) && third && isDirection(third)) return place(byDistance(word), 3);
  if (kind === "direction") return next?.meaning?.kind === "place" ? place("room", 2) : place("near", 1);
  if (kind === "place") return place("room", 1);
  if (kind !== "placeNoun" && !["mic", "microphone"].includes(word.key)) return null;
  if (next?.number != null) return place("room", 2, next.number);
  if (next && isDirection(next)) return place("near", 2);
  // One letter tells places apart as well: "pos A".
  return next?.meaning === null && next.text.length === 1 ? place("room", 2) : null;
}

function isDirection({ meaning }: KnownWord): boolean {
  return meaning?.kind === "direction" || meaning?.kind === "side";
}

/** @example isLength("15", "cm") */
function isLength(number: KnownWord | undefined, unit: KnownWord | undefined): boolean {
  return number?.number != null && unit?.meaning?.kind === "length";
}

function byDistance(centimetres: KnownWord | undefined): NamedPlace["kind"] {
  return (centimetres?.number ?? Infinity) <= NEAR_CM ? "near" : "room";
}
