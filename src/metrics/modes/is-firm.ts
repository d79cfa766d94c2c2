import type { Agreement } from "./agreement.js";
import { bandwidthHz, type Pole } from "./pole.js";

/** A mode whose looks agree better than this is one mode; of a mixture each look makes something else: a choice of ours. */
const LARGEST_SHIFT = 0.1;
const LARGEST_CHANGE = 0.2;

/** Whether frequency and decay are those of one mode. */
export function isFirm(mode: Pole & Agreement): boolean {
  return (
    mode.frequencyUncertaintyHz < LARGEST_SHIFT * bandwidthHz(mode) &&
    mode.dampingUncertaintyPerS < LARGEST_CHANGE * mode.dampingPerS
  );
}
