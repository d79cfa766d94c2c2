import { gradeOf } from "../schema/trust-grade.js";
import { BANDS } from "./bands.js";
import type { Grade, Reason } from "./trust/reason.js";
import { type Evidence, RULES } from "./trust/rules.js";

export interface TrustBand {
  readonly nominalHz: number;
  /** The worst of its reasons; null where the band was not measured. */
  readonly grade: Grade | null;
  readonly reasons: readonly Reason[];
}

/** What could not be judged of a monitor, so that nothing speaks against it there. */
interface NotJudged {
  readonly what: "deviation" | "left-right" | "spread" | "distortion" | "audibility" | "uncertainty";
  readonly reason: string;
}

export interface Trust {
  readonly bands: readonly TrustBand[];
  readonly notJudged: readonly NotJudged[];
}

/**
 * Whether a balance can be judged on a monitor, by third octave.
 *
 * `believe` without a reason against it, else the worst that one of them says. There is no sum of reasons.
 */
export function trustMap(evidence: Evidence): Trust {
  const found = RULES.map((rule) => rule(evidence));
  return {
    bands: BANDS.map(({ nominalHz }, k) => {
      const reasons = found.flatMap((bands) => bands[k]!);
      return { nominalHz, grade: gradeOf(reasons), reasons };
    }),
    notJudged: notJudged(evidence),
  };
}

function notJudged(evidence: Evidence): NotJudged[] {
  const { result, around, sides, deviationDb, fromTargetDb, audibleDb, spreadDb, uncertaintyDb } = evidence;
  const none = (curve: Evidence["audibleDb"]): boolean => curve.every((value) => value === null);
  const unstated = deviationDb.some((level, k) => level !== null && fromTargetDb[k] == null);
  const missing: (NotJudged | false)[] = [
    unstated && { what: "deviation", reason: "target-does-not-say" },
    !result.leftRight && { what: "left-right", reason: result.leftRightReason ?? "one-channel" },
    none(spreadDb) && { what: "spread", reason: around.length < 2 ? "one-place" : "two-places" },
    sides.every(({ distortion }) => !distortion) && { what: "distortion", reason: "not-separated" },
    none(audibleDb) && { what: "audibility", reason: "no-alignment" },
    none(uncertaintyDb) && { what: "uncertainty", reason: "noise-not-known" },
  ];
  return missing.filter((one) => one !== false);
}
