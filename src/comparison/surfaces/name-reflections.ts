import type { Reflection } from "../../model.js";
import type { ExpectedPath } from "./expected-path.js";
import { type NamingDoubts, pathFits, readingM } from "./path-fits.js";
import { afterNaming, detourDoubt, statedPlaces } from "./placement-doubt.js";
import { shareOut } from "./share-out.js";

/** What may have sent a reflection. */
interface Origin {
  /** Index among the expected paths. */
  readonly path: number;
  /** Chance that it is this one, 0 to 1. */
  readonly confidence: number;
  /** Measured detour minus the expected one, after what earlier names told of the places. */
  readonly offM: number;
}

/** One reflection with what may have sent it, the likeliest first; nothing where no path fits. */
export interface NamedReflection {
  readonly reflection: number;
  readonly origins: readonly Origin[];
}

/** Names are given in the order of their certainty; from here up one teaches where the places are. */
const SURE = 0.8;
/** So sure ones need not wait for each other. */
const BEYOND_DOUBT = 0.97;
/** What is less likely is not told. */
const TOLD = 0.1;

/**
 * Names the surfaces that early reflections come from.
 *
 * Each path expects a detour; how far the measured one may be from it follows from the places' uncertainty and the path's own derivatives.
 * By Bayes' rule the paths that fit share the certainty, with one more share for what no path explains: things nobody described, and
 * paths by way of three surfaces and more, whose density rises with the square of time. No path sends two reflections, so
 * those that fit one path share it. The surest name is given first; then the places are known better, so that the next can be told
 * apart more finely.
 *
 * @param reflections - of one measurement, by delay
 * @param paths - what geometry expects
 * @returns one entry for each reflection, in their order
 * @remarks Source: images, J. B. Allen, D. A. Berkley, J. Acoust. Soc. Am. 65 (1979); their density 4 pi c^3 t^2 / V, H. Kuttruff,
 *   Room Acoustics, from memory. The weights are choices of ours.
 */
export function nameReflections(
  reflections: readonly Reflection[],
  paths: readonly ExpectedPath[],
  doubts: NamingDoubts,
): NamedReflection[] {
  let places = statedPlaces(doubts.placementM);
  const settled = new Map<number, readonly Origin[]>();
  for (;;) {
    const known = paths.map((path) => detourDoubt(places, path));
    const guesses = reflections.map((reflection) => pathFits(reflection, paths, known, doubts));
    // What is settled keeps its chance, and leaves the others the rest of its path.
    const left = paths.map(() => 1);
    for (const origins of settled.values()) for (const { path, confidence } of origins) left[path]! *= 1 - confidence;
    const ratios = guesses.map((guess, n) =>
      settled.has(n) ? new Float64Array(paths.length) : guess.ratios.map((ratio, path) => ratio * left[path]!),
    );
    const open = shareOut(ratios).map((chances, n) => settled.get(n) ?? originsOf(chances, guesses[n]!.offM));
    const fresh = open.flatMap((origins, n) => (settled.has(n) || !origins[0] ? [] : [{ n, ...origins[0] }]));
    const surest = Math.max(0, ...fresh.map(({ confidence }) => confidence));
    if (surest < SURE) return open.map((origins, reflection) => ({ reflection, origins }));
    for (const { n, path } of fresh.filter(({ confidence }) => confidence >= Math.min(surest, BEYOND_DOUBT))) {
      settled.set(n, open[n]!);
      const offM = reflections[n]!.pathDifferenceM - paths[path]!.detourM;
      places = afterNaming(places, paths[path]!, offM, readingM(paths[path]!, reflections[n]!));
    }
  }
}

function originsOf(chances: Float64Array, offM: Float64Array): Origin[] {
  return [...chances]
    .map((confidence, path) => ({ path, confidence, offM: offM[path]! }))
    .filter(({ confidence }) => confidence >= TOLD)
    .sort((a, b) => b.confidence - a.confidence || a.path - b.path);
}
