import { normalTail } from "../../dsp/normal-tail.js";
import type { Reflection } from "../../model.js";
import type { ExpectedPath } from "./expected-path.js";

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
/** What is known of a path's detour beside what the stated places give. */
interface KnownDetour {
  readonly offM: number;
  readonly uncertaintyM: number;
}

/** How one reflection fits the paths. */
export interface PathFits {
  /** By path: how much likelier it is than something that nobody expects; 0 where it cannot be. */
  readonly ratios: Float64Array;
  /** By path: measured detour minus the expected one. */
  readonly offM: Float64Array;
}

/** Holds a reflection's time and level against every path. */
export function pathFits(
  reflection: Reflection,
  paths: readonly ExpectedPath[],
  known: readonly KnownDetour[],
  doubts: NamingDoubts,
): PathFits {
  const offM = Float64Array.from(paths, (path, k) => reflection.pathDifferenceM - path.detourM - known[k]!.offM);
  let otherwise: number | null = null;
  const ratios = offM.map((off, k) => {
    const path = paths[k]!;
    const spreadM = Math.sqrt(known[k]!.uncertaintyM ** 2 + readingM(path, reflection) ** 2);
    if (Math.abs(off) > FITS * spreadM || tooLoud(reflection, path)) return 0;
    otherwise ??= unexplainedPerM(reflection, paths, doubts);
    return (normal(off, spreadM) * likelihood(path, doubts.placementM) * byLevel(reflection, path)) / otherwise;
  });
  return { ratios, offM };
}

/** Standard uncertainty of a detour but for the places: the reading, the surface's own place, the speed of sound. */
export function readingM({ surfaces, detourM }: ExpectedPath, { close }: Reflection): number {
  const [own, surface, speed] = [close ? 2 * READING_M : READING_M, 2 * SURFACE_M, SPEED_SHARE * detourM];
  return Math.sqrt(own * own + surfaces.length * surface * surface + speed * speed);
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
