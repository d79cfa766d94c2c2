import { hertz, withUncertainty } from "./numbers.js";

/** Where a dip lies once a loudspeaker has been moved. */
export interface MovedDip {
  readonly toHz: number;
  /** Standard; results of earlier versions have none. */
  readonly toUncertaintyHz?: number | undefined;
}

/**
 * Where a move takes a dip: with its range, by what is not known of the places.
 *
 * @example movedDip({ toHz: 150.3, toUncertaintyHz: 2.4 }) // "150 ± 5 Hz"
 * @example movedDip({ toHz: 150.3 }) // "about 150 Hz"
 */
export function movedDip({ toHz, toUncertaintyHz }: MovedDip): string {
  if (toUncertaintyHz === undefined) return `about ${hertz(Number(toHz.toPrecision(2)))}`;
  return `${withUncertainty(toHz, toUncertaintyHz, 0)} Hz`;
}
