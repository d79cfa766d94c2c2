import type { Session } from "../model.js";
import { few } from "./few.js";
import type { NamedPlace } from "./named-place.js";
import { uniqueIds } from "./unique-ids.js";

export interface GuessedPlaces {
  readonly list: Session["positions"];
  readonly doubts: readonly string[];
  idOf(place: NamedPlace): string;
}

/** The places that the names speak of; where none is called the mix position, the first of numbered ones is it. */
export function placesOfNames(named: readonly NamedPlace[]): GuessedPlaces {
  const doubts: string[] = [];
  const places = new Map<string, NamedPlace>();
  for (const place of named) if (!places.has(keyOf(place))) places.set(keyOf(place), place);
  const numbers = [...places.values()].flatMap(({ number }) => number ?? []);
  const hasMix = [...places.values()].some(({ kind }) => kind === "mix");
  const mixNumber = hasMix || numbers.length === 0 ? null : Math.min(...numbers);
  const ordered = [...places]
    .map(([key, place]) => ({
      key,
      place,
      kind: place.number !== null && place.number === mixNumber ? ("mix" as const) : place.kind,
    }))
    .sort((a, b) => KINDS.indexOf(a.kind) - KINDS.indexOf(b.kind));
  const ids = uniqueIds(
    ordered.map(({ place, kind }) => (kind === "mix" && place.number === null ? "mix" : idText(place))),
    "place",
  );
  const list = ordered.map(({ kind }, n) => ({ id: ids[n]!, kind }));
  if (mixNumber !== null) doubts.push(`No name says "mix": "${list[0]!.id}" is taken as the mix position.`);
  const numbered = list
    .filter(({ kind }, n) => ordered[n]!.place.number !== null && kind === "room")
    .map(({ id }) => id);
  if (numbered.length > 0) {
    doubts.push(
      `How far ${few(numbered)} ${numbered.length === 1 ? "is" : "are"} from the seat is not known: written as "room". Within 30 cm of it, edit "kind" to "near".`,
    );
  }
  const byKey = new Map(ordered.map(({ key }, n) => [key, ids[n]!]));
  return { list, doubts, idOf: (place) => byKey.get(keyOf(place))! };
}

const KINDS: readonly NamedPlace["kind"][] = ["mix", "near", "room"];

function keyOf({ kind, words, number }: NamedPlace): string {
  if (kind === "mix") return "mix";
  return number !== null ? `number ${number}` : words.join(" ").toLowerCase();
}

/** "pos 2" is written "pos2", "20 cm left" "20cm_left". */
function idText({ words, number }: NamedPlace): string {
  return number !== null ? words.join("") : words.join("_").replace(/(\d)_cm(?![a-z])/i, "$1cm");
}
