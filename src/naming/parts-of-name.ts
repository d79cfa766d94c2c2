import { type KnownWord, knownWordsOf } from "./known-word.js";
import { type NamedPlace, placeAt } from "./named-place.js";
import type { Meaning, Role } from "./vocabulary.js";

/** What a word, or a few together, say by themselves. What they leave open, the other names and the content decide. */
export interface NamePart {
  /** As written. */
  readonly text: string;
  readonly says:
    | { readonly kind: "role"; readonly role: Role }
    /** Belongs to the monitor's name, as a model's number does. */
    | { readonly kind: "monitor" }
    /** Part of a monitor's name, or a place. */
    | { readonly kind: "unknown" }
    | { readonly kind: "letter"; readonly channel: "L" | "R" }
    /** A loudspeaker, or a place beside the seat. */
    | { readonly kind: "side"; readonly channel: "L" | "R" }
    | { readonly kind: "both" }
    | { readonly kind: "place"; readonly place: NamedPlace }
    | { readonly kind: "take"; readonly take: number }
    | { readonly kind: "impulse" | "played" | "microphone" }
    | { readonly kind: "nothing" };
}

/** A larger number is a date, a time, or a workstation's counter. */
const LARGEST_TAKE = 99;

/** Takes a name apart into what its words say. */
export function partsOfName(path: string): NamePart[] {
  const words = knownWordsOf(path);
  const roleWord = roleWordOf(words);
  const parts: NamePart[] = [];
  for (let index = 0; index < words.length;) {
    const { says, length } = partAt(words, index, roleWord);
    const text = words.slice(index, index + length).map((word) => word.text);
    parts.push({ text: text.join(" "), says });
    index += length;
  }
  return parts;
}

function partAt(
  words: readonly KnownWord[],
  index: number,
  roleWord: KnownWord | null,
): { says: NamePart["says"]; length: number } {
  const word = words[index]!;
  const found = placeAt(words, index);
  if (found) return { says: { kind: "place", place: found.place }, length: found.length };
  const { meaning, number } = word;
  const next = words[index + 1];
  if (number !== null) return { says: numberSays(word, words[index - 1], next === undefined, roleWord), length: 1 };
  if (meaning?.kind === "take" && next?.number != null) return { says: { kind: "take", take: next.number }, length: 2 };
  if (word === roleWord && meaning?.kind === "role") return { says: { kind: "role", role: meaning.role }, length: 1 };
  return { says: wordSays(meaning), length: 1 };
}

function numberSays(
  { number, text }: KnownWord,
  before: KnownWord | undefined,
  isLast: boolean,
  roleWord: KnownWord | null,
): NamePart["says"] {
  // What stands first counts the files of a folder.
  if (before === undefined || number === null) return { kind: "nothing" };
  const isOfMonitor = before === roleWord || (before.meaning === null && before.number === null);
  if (isOfMonitor && (!isLast || text.length > 2) && text.length < 6) return { kind: "monitor" };
  return number > 0 && number <= LARGEST_TAKE ? { kind: "take", take: number } : { kind: "nothing" };
}

function wordSays(meaning: Meaning | null): NamePart["says"] {
  switch (meaning?.kind) {
    // A second role in one name is a word like any other.
    case undefined:
    case "role":
      return { kind: "unknown" };
    case "letter":
    case "side":
      return { kind: meaning.kind, channel: meaning.channel };
    case "both":
    case "impulse":
    case "played":
    case "microphone":
      return { kind: meaning.kind };
    default:
      return { kind: "nothing" };
  }
}

/** The word that says what kind of monitor it is. */
function roleWordOf(words: readonly KnownWord[]): KnownWord | null {
  const roles = words.filter(({ meaning }) => meaning?.kind === "role");
  return roles.find(({ meaning }) => meaning?.kind === "role" && !meaning.isWeak) ?? roles[0] ?? null;
}
