import { normalTail } from "../../dsp/normal-tail.js";
import type { Reflection } from "../../model.js";
import type { ExpectedPath } from "./expected-path.js";
import { afterNaming, detourDoubt, statedPlaces } from "./placement-doubt.js";
import { shareOut } from "./share-out.js";

/** What may have sent a reflection. */
export interface Origin {
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

export interface NamingDoubts {
  /** Standard uncertainty of each coordinate of loudspeaker and listener. */
  readonly placementM: number;
  /** Of a room, m3; tells how many echoes arrive by more than two surfaces. Null where not known. */
  readonly volumeM3: number | null;
  readonly soundSpeedMPerS: number;
}

/** Detours are read to about 30 us where a reflection stands alone, and surfaces lie a centimetre off plan: choices of ours. */
const READING_M = 0.01;
const SURFACE_M = 0.01;
/** Of the speed of sound: 1 degree. */
const SPEED_SHARE = 0.0017;
/** Before anyone looks at the time: how often such a path leaves a reflection that stands out. Choices of ours. */
const ONCE_REFLECTED = 0.8;
const TWICE_REFLECTED = 0.25;
/** What stands in the way of a path at 1 to 8 kHz lets little of it through. */
const BLOCKED = 0.02;
/** Furniture and things that nobody described: so many reflections that stand out in a second. A choice of ours. */
const UNKNOWN_PER_S = 20;
/** Of the paths by way of three surfaces and more, so many stand out. */
const LATE_SHARE = 0.1;
const ASSUMED_VOLUME_M3 = 60;
/** A flat surface sends no more than a mirror would; focusing and the neighbours' sum add so much at most. */
const LOUDER_DB = 4;
/** Beyond so many standard uncertainties a path does not fit. */
const FITS = 3.5;
/** What a surface takes away, and how different surfaces are in that, dB. Choices of ours: a third to nine tenths absorbed. */
const TAKEN_DB = 3;
const TAKEN_SPREAD_DB = 4.5;
/** The same of what has no name: three surfaces and more, or a small thing. */
const OTHERWISE_DB = 10;
const OTHERWISE_SPREAD_DB = 6;
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
    const guesses = reflections.map((reflection) => fits(reflection, paths, known, doubts));
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
      places = afterNaming(places, paths[path]!, offM, readingOf(paths[path]!, reflections[n]!));
    }
  }
}

interface Fits {
  /** By path: how much likelier it is than something that nobody expects. */
  readonly ratios: Float64Array;
  readonly offM: Float64Array;
}

function fits(
  reflection: Reflection,
  paths: readonly ExpectedPath[],
  known: readonly ReturnType<typeof detourDoubt>[],
  doubts: NamingDoubts,
): Fits {
  const otherwise = unexplainedPerM(reflection, paths, doubts);
  const offM = new Float64Array(paths.length);
  const ratios = Float64Array.from(paths, (path, index) => {
    const { offM: expectedM, uncertaintyM } = known[index]!;
    const spreadM = Math.hypot(uncertaintyM, readingOf(path, reflection));
    offM[index] = reflection.pathDifferenceM - path.detourM - expectedM;
    if (tooLoud(reflection, path) || Math.abs(offM[index]) > FITS * spreadM) return 0;
    return (
      (normal(offM[index], spreadM) * likelihood(path, doubts.placementM) * byLevel(reflection, path)) / otherwise
    );
  });
  return { ratios, offM };
}

function originsOf(chances: Float64Array, offM: Float64Array): Origin[] {
  return [...chances]
    .map((confidence, path) => ({ path, confidence, offM: offM[path]! }))
    .filter(({ confidence }) => confidence >= TOLD)
    .sort((a, b) => b.confidence - a.confidence || a.path - b.path);
}

function readingOf({ surfaces, detourM }: ExpectedPath, { close }: Reflection): number {
  return Math.hypot((close ? 2 : 1) * READING_M, 2 * SURFACE_M * Math.sqrt(surfaces.length), SPEED_SHARE * detourM);
}

/** Chance that a path leaves a reflection: near an edge it may miss its surface. */
function likelihood({ surfaces, insideM, blockedBy }: ExpectedPath, placementM: number): number {
  const order = surfaces.length === 1 ? ONCE_REFLECTED : TWICE_REFLECTED;
  const deviations = Math.abs(insideM) / Math.max(placementM, READING_M);
  const tail = Number.isFinite(deviations) ? 0.5 * normalTail(deviations) : 0;
  return order * (insideM >= 0 ? 1 - tail : tail) * (blockedBy.length > 0 ? BLOCKED : 1);
}

function tooLoud(reflection: Reflection, path: ExpectedPath): boolean {
  return takenDb(reflection, path) < -(LOUDER_DB + 2 * reflection.levelUncertaintyDb);
}

/** What is missing to the level that a mirror would give. */
function takenDb({ levelDb }: Reflection, { lengthM, detourM }: ExpectedPath): number {
  return 20 * Math.log10((lengthM - detourM) / lengthM) - levelDb;
}

/** How much likelier its level is by this path than otherwise. */
function byLevel(reflection: Reflection, path: ExpectedPath): number {
  const lostDb = takenDb(reflection, path);
  return (
    normal(lostDb - TAKEN_DB * path.surfaces.length, TAKEN_SPREAD_DB) /
    normal(lostDb - OTHERWISE_DB, OTHERWISE_SPREAD_DB)
  );
}

/** Density of a normal error. */
function normal(error: number, deviation: number): number {
  return Math.exp(-0.5 * (error / deviation) ** 2) / (deviation * Math.sqrt(2 * Math.PI));
}

/** Reflections that no expected path explains, per metre of detour. */
function unexplainedPerM(
  { pathDifferenceM }: Reflection,
  paths: readonly ExpectedPath[],
  { volumeM3, soundSpeedMPerS }: NamingDoubts,
): number {
  const directM = paths[0] ? paths[0].lengthM - paths[0].detourM : 0;
  const lengthM = directM + pathDifferenceM;
  const imagesPerM = (4 * Math.PI * lengthM ** 2) / (volumeM3 ?? ASSUMED_VOLUME_M3);
  // Up to twice reflected they are all listed where the room is known; the rest of the images are not.
  const reachM = 1;
  const listed = paths.filter((path) => Math.abs(path.lengthM - lengthM) < reachM).length / (2 * reachM);
  return UNKNOWN_PER_S / soundSpeedMPerS + LATE_SHARE * Math.max(0, imagesPerM - listed);
}
