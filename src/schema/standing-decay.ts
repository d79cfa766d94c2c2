import type { ChangedQuantity } from "./changes.js";

/** The time read furthest down, or behind a cliff the late one: as `roomDecay` chooses it. */
const IN_ORDER = ["t30S", "t20S", "lateS"] as const;

/**
 * Of the decay times that were compared in each band, the one that stands for it wherever one is wanted.
 *
 * @returns by frequency; a band in which none could be judged is left out
 */
export function standingDecays(quantities: readonly ChangedQuantity[], fraction: 1 | 3): ChangedQuantity[] {
  const own = quantities.filter((one) => one.fraction === fraction && one.bandHz !== null && one.needed !== null);
  const bands = [...new Set(own.map(({ bandHz }) => bandHz!))].sort((a, b) => a - b);
  return bands.flatMap((bandHz) => {
    const inBand = own.filter((one) => one.bandHz === bandHz);
    for (const name of IN_ORDER) {
      const found = inBand.find(({ quantity }) => quantity === name);
      if (found) return [found];
    }
    return [];
  });
}
