import { type BandDifference, minus, rootSum } from "../band-curve.js";
import { bandsOverPositions } from "../positions/bands-over-positions.js";
import type { Place } from "../positions/places.js";

const LEAST_PLACES = 2;

/**
 * Difference of two monitors by third octave between their means over the positions that both have.
 *
 * Its uncertainty is the one in the room, with all that `bandsOverPositions` says of positions near one another. The two means
 * are taken as independent: two monitors stand at two places, and the room answers each its own way.
 *
 * @returns null with fewer than two common positions
 */
export function roomBands(a: readonly Place[], b: readonly Place[]): BandDifference[] | null {
  const has = (places: readonly Place[], id: string): boolean => places.some(({ position }) => position.id === id);
  const commonA = a.filter(({ position }) => has(b, position.id));
  const commonB = b.filter(({ position }) => has(a, position.id));
  if (commonA.length < LEAST_PLACES) return null;
  const others = bandsOverPositions(commonB);
  return bandsOverPositions(commonA).map((one) => {
    const other = others.find(({ nominalHz }) => nominalHz === one.nominalHz);
    return {
      nominalHz: one.nominalHz,
      differenceDb: minus(one.levelDb, other?.levelDb),
      uncertaintyDb: rootSum(one.roomUncertaintyDb, other?.roomUncertaintyDb),
    };
  });
}
