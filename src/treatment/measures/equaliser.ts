import type { Measure } from "../../model.js";

/** What an equaliser does to a peak: it lowers it, and shortens nothing. */
export function lowerPeak(): Measure {
  return { kind: "equaliser", works: true, boostDb: null, timesPower: null };
}

/**
 * What an equaliser does to a dip.
 *
 * Where two waves cancel it raises both: at this one place the level comes up, for many times the power, and a head's breadth away,
 * where they cancel less, it is too loud. A loudspeaker's own dip it fills everywhere.
 *
 * @param isInterference - null where the cause is not known
 */
export function fillDip(depthDb: number, isInterference: true | null): Measure {
  return { kind: "equaliser", works: isInterference && false, boostDb: depthDb, timesPower: 10 ** (depthDb / 10) };
}
