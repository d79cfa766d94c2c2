import type { ChangedQuantity } from "../../schema/changes.js";
import { type MonitorChanges, sizeOf } from "./tell.js";

/** The time that stands for a band, wherever one is wanted: the one read furthest down, or behind a cliff the late one. */
const IN_ORDER = ["t30S", "t20S", "lateS"] as const;

/** One decay a band: of all channels the one that has changed most, by what it takes. */
export function decaysOf({ measured }: MonitorChanges, fraction: 1 | 3): ChangedQuantity[] {
  const best = new Map<number, ChangedQuantity>();
  for (const { quantities } of measured) {
    for (const entry of standing(quantities, fraction)) {
      const known = best.get(entry.bandHz!);
      if (!known || weight(entry) > weight(known)) best.set(entry.bandHz!, entry);
    }
  }
  return [...best.values()].sort((a, b) => a.bandHz! - b.bandHz!);
}

function standing(quantities: readonly ChangedQuantity[], fraction: 1 | 3): ChangedQuantity[] {
  const own = quantities.filter((one) => one.fraction === fraction && one.bandHz !== null && one.needed !== null);
  const bands = [...new Set(own.map(({ bandHz }) => bandHz))];
  return bands.flatMap((bandHz) => {
    for (const name of IN_ORDER) {
      const found = own.find((one) => one.quantity === name && one.bandHz === bandHz);
      if (found) return [found];
    }
    return [];
  });
}

/** What is real comes before what is larger. */
function weight(entry: ChangedQuantity): number {
  return sizeOf(entry) + (entry.change === "real" ? 1000 : 0);
}
