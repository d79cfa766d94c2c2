import type { ChangedQuantity } from "../../schema/changes.js";
import { standingDecays } from "../../schema/standing-decay.js";
import { bySides, type OfSides } from "./by-sides.js";
import type { MonitorChanges } from "./tell.js";

/** One decay a band: of all channels the one that has changed most, by what it takes; each side's own where they disagree. */
export function decaysBySides(changes: MonitorChanges, fraction: 1 | 3): OfSides[] {
  return bySides(
    changes,
    ({ quantities }) => standingDecays(quantities, fraction),
    (a, b) => a.bandHz === b.bandHz,
  );
}

/** All of them in one list, by frequency. */
export function decaysOf(changes: MonitorChanges, fraction: 1 | 3): ChangedQuantity[] {
  return decaysBySides(changes, fraction)
    .flatMap(({ entries }) => entries)
    .sort((a, b) => a.bandHz! - b.bandHz!);
}
