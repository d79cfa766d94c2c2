import { distance } from "fastest-levenshtein";

/**
 * Finds the name that was probably meant: the only door to the edit-distance library.
 *
 * Case is ignored, and a name counts as near when at most a third of it, or two letters, would have to change.
 *
 * @returns null when nothing is near enough to be worth naming
 * @example nearestName("positons", ["panels", "positions"]) // "positions"
 */
export function nearestName(name: string, known: readonly string[]): string | null {
  let nearest: string | null = null;
  let fewest = Math.max(2, Math.floor(name.length / 3)) + 1;
  for (const candidate of known) {
    const changes = distance(name.toLowerCase(), candidate.toLowerCase());
    // Two letters out of two are not a likeness.
    if (changes < fewest && changes < candidate.length) {
      nearest = candidate;
      fewest = changes;
    }
  }
  return nearest;
}
