import type { Finding, Results } from "../model.js";
import { bandEdges, THIRD_OCTAVES } from "../standards/iec61260.js";

/** A trouble that a measure in the room or at the loudspeakers may mend. */
export interface Problem {
  /** Index in the results' findings. */
  readonly index: number;
  readonly finding: Finding;
  /** Further findings that tell the same. */
  readonly also: readonly number[];
  /** Third octaves concerned, by nominal frequency; none where the trouble lies in time. */
  readonly bandsHz: readonly number[];
}

/** Findings that are told here; what only a repair or another measurement mends is not. */
const TREATED = [
  "mode-rings",
  "rings",
  "too-live",
  "double-slope",
  "early-reflection",
  "one-sided-reflection",
  "flutter",
  "boundary-dip",
  "dip",
  "peak",
  "phantom-dip",
  "left-right-level",
  "left-right-arrival",
  "left-right-bands",
] as const;

export type ProblemCode = (typeof TREATED)[number];

/** Of two findings that tell one trouble the first one is treated: a peak that rings, a dip that a surface makes. */
const SAME: Partial<Readonly<Record<ProblemCode, readonly ProblemCode[]>>> = {
  peak: ["mode-rings", "rings"],
  dip: ["boundary-dip"],
};

export function problemsOf({ findings }: Results): Problem[] {
  const all = findings.flatMap((finding, index) =>
    finding.topic === "mend" && isTreated(finding.code)
      ? [{ index, finding, also: [], bandsHz: bandsOf(finding) }]
      : [],
  );
  const twins = new Map(all.map((one) => [one.index, all.find((other) => holds(other, one))?.index]));
  return all
    .filter(({ index }) => twins.get(index) === undefined)
    .map((one) => ({
      ...one,
      also: all.filter(({ index }) => twins.get(index) === one.index).map(({ index }) => index),
    }));
}

function isTreated(code: string): code is ProblemCode {
  return (TREATED as readonly string[]).includes(code);
}

/** Whether the first tells the second's trouble as well: another name for it, in the same band, of the same monitors. */
function holds(first: Problem, second: Problem): boolean {
  const names: readonly string[] = SAME[second.finding.code as ProblemCode] ?? [];
  const worst = nominalOf(second.finding.bandHz);
  return (
    names.includes(first.finding.code) &&
    worst !== null &&
    first.bandsHz.includes(worst) &&
    second.finding.monitors.every((id) => first.finding.monitors.includes(id))
  );
}

function bandsOf({ bandHz, rangeHz }: Finding): number[] {
  if (rangeHz !== null) {
    return THIRD_OCTAVES.map(({ nominalHz }) => nominalHz).filter((hz) => hz >= rangeHz[0] && hz <= rangeHz[1]);
  }
  const nominal = nominalOf(bandHz);
  return nominal === null ? [] : [nominal];
}

function nominalOf(frequencyHz: number | null): number | null {
  if (frequencyHz === null) return null;
  const band = THIRD_OCTAVES.find((one) => frequencyHz >= bandEdges(one)[0] && frequencyHz < bandEdges(one)[1]);
  return band?.nominalHz ?? null;
}
