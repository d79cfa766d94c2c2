import type { Curve } from "./bands.js";
import { isInRegion, type Region, REGIONS } from "../standards/regions.js";
import { adviceWords } from "./guide/words.js";
import type { Grade, Reason } from "./trust/reason.js";
import type { TrustBand } from "./trust-map.js";

/** What the guide knows of a monitor. */
export interface GuidedMonitor {
  readonly id: string;
  readonly bands: readonly TrustBand[];
}

export interface GuideRow {
  readonly region: string;
  readonly fromHz: number;
  readonly toHz: number;
  readonly carries: string;
  /** Monitors by what they are worth here; `unknown` where not measured. */
  readonly believe: readonly string[];
  readonly care: readonly string[];
  readonly blind: readonly string[];
  readonly unknown: readonly string[];
  readonly verdict: "all" | "some" | "with-care" | "none" | "not-measured";
  readonly advice: string;
  /** What speaks against each monitor here, most bands first. */
  readonly because: readonly { readonly monitor: string; readonly codes: readonly Reason["code"][] }[];
}

/**
 * For each musical region: which monitors to believe, and what to do where none can be.
 *
 * @param monitors - those that one may mix on
 * @param programmeDb - level of the programme by band, on any one scale
 * @returns no rows without a monitor
 */
export function decisionGuide(monitors: readonly GuidedMonitor[], programmeDb: Curve): GuideRow[] {
  if (monitors.length === 0) return [];
  return REGIONS.map((region) => {
    const graded = monitors.map(({ id, bands }) => ({ id, ...gradeRegion(bands, region, programmeDb) }));
    const ids = (grade: Grade | null): string[] => graded.filter((one) => one.grade === grade).map(({ id }) => id);
    const sorted = { believe: ids("believe"), care: ids("care"), blind: ids("blind"), unknown: ids(null) };
    const row = {
      region: region.name,
      fromHz: region.fromHz,
      toHz: region.toHz,
      carries: region.carries,
      ...sorted,
      verdict: verdictOf(sorted, monitors.length),
      because: graded.filter(({ codes }) => codes.length > 0).map(({ id, codes }) => ({ monitor: id, codes })),
    };
    return { ...row, advice: adviceWords(row) };
  });
}

type Sorted = Pick<GuideRow, "believe" | "care" | "blind" | "unknown">;

function verdictOf({ believe, care, unknown }: Sorted, count: number): GuideRow["verdict"] {
  if (believe.length === count) return "all";
  if (believe.length > 0) return "some";
  if (care.length > 0) return "with-care";
  return unknown.length === count ? "not-measured" : "none";
}

/** Shares of a region's programme, choices of ours. */
const LEAST_BELIEVED = 0.6;
const MOST_BLIND_BELIEVED = 0.1;
const LEAST_BLIND = 0.5;

/**
 * The grade of a region by what the programme holds in its bands: blind where half of it lies in blind bands, or most of the bands
 * are blind; believed where most of it lies in believed ones and next to nothing in blind ones, else care.
 */
function gradeRegion(
  bands: readonly TrustBand[],
  region: Region,
  programmeDb: Curve,
): { grade: Grade | null; codes: Reason["code"][] } {
  const inside = bands.flatMap((band, k) =>
    isInRegion(band.nominalHz, region) && band.grade !== null
      ? [{ band, power: 10 ** ((programmeDb[k] ?? -Infinity) / 10) }]
      : [],
  );
  const total = inside.reduce((sum, { power }) => sum + power, 0);
  if (total === 0) return { grade: null, codes: [] };
  const share = (grade: Grade): number =>
    inside.reduce((sum, { band, power }) => sum + (band.grade === grade ? power : 0), 0) / total;
  const believed = share("believe") >= LEAST_BELIEVED && share("blind") < MOST_BLIND_BELIEVED;
  const blindBands = inside.filter(({ band }) => band.grade === "blind").length;
  const blind = share("blind") >= LEAST_BLIND || blindBands > inside.length / 2;
  const grade = blind ? "blind" : believed ? "believe" : "care";
  const spoken = inside.map(({ band }) => band);
  return { grade, codes: grade === "believe" ? [] : codesOf(spoken, grade) };
}

/** What makes the grade, by the number of bands; where a monitor ends, what is missing is its end and not a dip. */
function codesOf(bands: readonly TrustBand[], grade: "care" | "blind"): Reason["code"][] {
  const counts = new Map<Reason["code"], number>();
  for (const { reasons } of bands) {
    const ends = reasons.some(({ code }) => code === "extension");
    const codes = new Set(
      reasons
        .filter((one) => grade === "care" || one.grade === "blind")
        .map(({ code }) => (ends && code === "deviation-dip" ? "extension" : code)),
    );
    for (const code of codes) counts.set(code, (counts.get(code) ?? 0) + 1);
  }
  return [...counts].sort(([, a], [, b]) => b - a).map(([code]) => code);
}
