import type { ChangedQuantity } from "../../schema/changes.js";
import { standingDecays } from "../../schema/standing-decay.js";
import { type MonitorChanges, sizeOf } from "./tell.js";

/** One decay a band: of all channels the one that has changed most, by what it takes. */
export function decaysOf({ measured }: MonitorChanges, fraction: 1 | 3): ChangedQuantity[] {
  const best = new Map<number, ChangedQuantity>();
  for (const { quantities } of measured) {
    for (const entry of standingDecays(quantities, fraction)) {
      const known = best.get(entry.bandHz!);
      if (!known || weight(entry) > weight(known)) best.set(entry.bandHz!, entry);
    }
  }
  return [...best.values()].sort((a, b) => a.bandHz! - b.bandHz!);
}

/** What is real comes before what is larger. */
function weight(entry: ChangedQuantity): number {
  return sizeOf(entry) + (entry.change === "real" ? 1000 : 0);
}
