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
 * @returns no rows without a monitor
 */
export function decisionGuide(monitors: readonly GuidedMonitor[]): GuideRow[] {
  if (monitors.length === 0) return [];
  return REGIONS.map((region) => {
    const graded = monitors.map(({ id, bands }) => ({ id, ...gradeRegion(bands, region) }));
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

/**
 * The grade of a region: blind where at least half its bands are, believed where at least half are and none is blind, else care.
 * A choice of ours.
 */
function gradeRegion(bands: readonly TrustBand[], region: Region): { grade: Grade | null; codes: Reason["code"][] } {
  const inside = bands.filter(({ nominalHz }) => isInRegion(nominalHz, region));
  const count = (grade: Grade): number => inside.filter((band) => band.grade === grade).length;
  const known = inside.filter(({ grade }) => grade !== null).length;
  const half = known / 2;
  if (known === 0) return { grade: null, codes: [] };
  const blind = count("blind");
  const grade = blind >= half ? "blind" : blind === 0 && count("believe") >= half ? "believe" : "care";
  return { grade, codes: grade === "believe" ? [] : codesOf(inside, grade) };
}

/** What makes the grade, by the number of bands. */
function codesOf(bands: readonly TrustBand[], grade: "care" | "blind"): Reason["code"][] {
  const counts = new Map<Reason["code"], number>();
  for (const { reasons } of bands) {
    const codes = new Set(reasons.filter((one) => grade === "care" || one.grade === "blind").map(({ code }) => code));
    for (const code of codes) counts.set(code, (counts.get(code) ?? 0) + 1);
  }
  return [...counts].sort(([, a], [, b]) => b - a).map(([code]) => code);
}
