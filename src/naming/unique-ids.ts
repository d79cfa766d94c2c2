import { plain } from "./words-of-name.js";

const LONGEST = 32;

/**
 * Makes an id of each name that the session file accepts, no two alike whatever their case.
 *
 * @param names - as people write them
 * @param otherwise - for a name without a Latin letter or a figure
 * @example uniqueIds(["Kitchen phone", "Größe", "größe", "..."], "place") // ["kitchen_phone", "grosse", "grosse_2", "place"]
 */
export function uniqueIds(names: readonly string[], otherwise: string): string[] {
  const taken = new Set(["neutral"]);
  return names.map((name) => {
    const base = idOf(name, otherwise);
    let id = base;
    for (let count = 2; taken.has(id); count++) {
      const ending = `_${count}`;
      id = base.slice(0, LONGEST - ending.length) + ending;
    }
    taken.add(id);
    return id;
  });
}

function idOf(name: string, otherwise: string): string {
  const letters = plain(name)
    .replaceAll("ß", "ss")
    .replace(/[^A-Za-z0-9]+/g, "_");
  const id = letters
    .slice(0, LONGEST + 1)
    .replace(/^_+/, "")
    .slice(0, LONGEST)
    .replace(/_+$/, "")
    .toLowerCase();
  return id === "" ? otherwise : id;
}
