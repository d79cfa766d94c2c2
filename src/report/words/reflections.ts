import type { Reflection } from "../../model.js";

/** So many reflections of a channel are listed; a small room has dozens more that say nothing one by one. */
const listed = 10;

/** The places in the list of the strongest reflections, in order of delay. */
export function strongest(reflections: readonly Reflection[]): number[] {
  return reflections
    .map((_, index) => index)
    .sort((a, b) => reflections[b]!.levelDb - reflections[a]!.levelDb || a - b)
    .slice(0, listed)
    .sort((a, b) => a - b);
}
