import type { NamePart } from "./parts-of-name.js";

/** What an unknown word of a name belongs to. */
export type Belongs = "monitor" | "place" | "everything";

/**
 * Says for each name what its unknown words belong to: names that differ in nothing else tell.
 *
 * A word in every name names the day or the house. Beside a kind of monitor, and with no place in the name, a word is a place
 * if other kinds have it as well, or if its own kind also comes without any such word; otherwise it tells monitors of one
 * kind apart.
 *
 * @returns one map for each name, by the word in lower case
 */
export function divideUnknown(names: readonly (readonly NamePart[])[]): ReadonlyMap<string, Belongs>[] {
  const words = names.map((parts) => unknownOf(parts));
  const roles = names.map(roleOf);
  const everywhere = new Set(
    names.length < 3 ? [] : words[0]!.filter((word) => words.every((others) => others.includes(word))),
  );
  const isNamedOtherwise = names.every((_, n) => roles[n] !== null || words[n]!.some((word) => !everywhere.has(word)));
  const rolesWith = (word: string): Set<string> =>
    new Set(roles.filter((role, n) => role !== null && words[n]!.includes(word)) as string[]);
  return names.map((parts, n) => {
    const own = words[n]!;
    const role = roles[n] ?? null;
    const hasPlace = parts.some(({ says }) => says.kind === "place");
    const belongs = (word: string, index: number): Belongs => {
      if (isNamedOtherwise && everywhere.has(word)) return "everything";
      if (hasPlace) return "monitor";
      if (role === null) return index === 0 ? "monitor" : "place";
      const isPlainElsewhere = roles.some(
        (other, m) => other === role && words[m]!.every((one) => everywhere.has(one)),
      );
      return isPlainElsewhere || rolesWith(word).size > 1 ? "place" : "monitor";
    };
    return new Map(own.map((word, index) => [word, belongs(word, index)]));
  });
}

function unknownOf(parts: readonly NamePart[]): string[] {
  return parts.filter(({ says }) => says.kind === "unknown").map(({ text }) => text.toLowerCase());
}

function roleOf(parts: readonly NamePart[]): string | null {
  const role = parts.find(({ says }) => says.kind === "role")?.says;
  return role?.kind === "role" ? role.role : null;
}
