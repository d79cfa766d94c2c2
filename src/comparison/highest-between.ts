import type { EnergyTime } from "../model.js";

/** Highest level of a curve between two times; null inside where all is silent there, null where the curve does not reach. */
export function highestBetween(
  curve: EnergyTime | null,
  fromS: number,
  toS: number,
): { levelDb: number | null } | null {
  if (!curve) return null;
  const { startS, stepS, levelDb } = curve;
  // A step holds the strongest of the time half a step to either side.
  const first = Math.floor((fromS - startS) / stepS + 0.5);
  const last = Math.ceil((toS - startS) / stepS - 0.5);
  if (first < 0 || last >= levelDb.length) return null;
  const known = levelDb.slice(first, last + 1).filter((level) => level !== null);
  return { levelDb: known.length > 0 ? Math.max(...known) : null };
}
