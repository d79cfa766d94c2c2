import type { Finding, Measurement, Results, Translation, TrustGain } from "../model.js";
import { gradeOf } from "../schema/trust-grade.js";
import { EARLY_UNTIL_S } from "../standards/early-sound.js";
import { bandEdges, THIRD_OCTAVES } from "../standards/iec61260.js";
import { measuredAtMix, sameReflection } from "./at-mix.js";
import type { Problem, ProblemCode } from "./problem.js";

type Band = Translation["trust"][number]["bands"][number];
type Reason = Band["reasons"][number];
type Code = Reason["code"];
type Limit = Translation["limits"][number];

const GRADES = ["blind", "care", "believe"] as const;

/** Reasons of the trust map that a trouble gives; for the others it has none. */
const CODES: Readonly<Record<ProblemCode, readonly Code[]>> = {
  "mode-rings": ["ringing", "deviation-peak"],
  rings: ["ringing", "deviation-peak"],
  peak: ["deviation-peak"],
  dip: ["deviation-dip"],
  "boundary-dip": ["deviation-dip"],
  "early-reflection": ["early-reflection"],
  "one-sided-reflection": ["early-reflection"],
  "left-right-level": ["left-right"],
  "left-right-bands": ["left-right"],
  "left-right-arrival": [],
  "phantom-dip": [],
  flutter: [],
  "double-slope": [],
  "too-live": [],
};

/**
 * What would become of the trust map if a trouble were gone, and nothing else changed.
 *
 * The trouble's reasons are taken out of its bands; those that come from several causes, the level between the sides and early
 * reflections, are judged anew by what the trouble leaves. What other reasons say stands.
 *
 * @returns null without a trust map
 */
export function trustGain({ finding, bandsHz }: Problem, results: Results): TrustGain | null {
  const { translation } = results;
  if (!translation || translation.trust.length === 0) return null;
  const codes = codesOf(finding);
  const changed = translation.trust
    .filter(({ monitor }) => finding.monitors.includes(monitor))
    .flatMap(({ monitor, bands }) =>
      bands.flatMap((band) => {
        const from = gradeOf(band.reasons);
        const to = gradeOf(without(finding, codes, bandsHz, monitor, band, results));
        return from === null || to === null ? [] : [{ monitor, nominalHz: band.nominalHz, from, to }];
      }),
    );
  const steps = ({ from, to }: (typeof changed)[number]): number => GRADES.indexOf(to) - GRADES.indexOf(from);
  const bands = changed.filter((one) => steps(one) > 0);
  return {
    codes: [...codes],
    rises: bands.length,
    toBelieve: bands.filter(({ to }) => to === "believe").length,
    falls: changed.filter((one) => steps(one) < 0).length,
    bands,
  };
}

/** A dip on one side alone also sets the sides apart. */
function codesOf({ code, channels }: Finding): readonly Code[] {
  const codes = CODES[code as ProblemCode];
  return code === "boundary-dip" && channels.length === 1 ? [...codes, "left-right"] : codes;
}

function without(
  finding: Finding,
  codes: readonly Code[],
  bandsHz: readonly number[],
  monitor: string,
  { nominalHz, reasons }: Band,
  results: Results,
): readonly Pick<Reason, "grade">[] {
  const left = reasons.filter(({ code }) => !codes.includes(code));
  const limits = results.translation!.limits.filter(
    ({ code, rangeHz }) => codes.includes(code) && nominalHz >= rangeHz[0] && nominalHz <= rangeHz[1],
  );
  if (finding.code === "left-right-level") {
    const pair = results.monitors.find(({ id }) => id === monitor)?.leftRight;
    const differenceDb = pair?.bands.find((band) => band.nominalHz === nominalHz)?.differenceDb ?? null;
    if (differenceDb === null || finding.value === null) return reasons;
    return [...left, ...over(Math.abs(differenceDb - finding.value), limits)];
  }
  if (codes.includes("early-reflection")) {
    const others = otherReflections(results, monitor, finding, nominalHz);
    return others === null ? reasons : [...left, ...over(Math.max(-Infinity, ...others), limits)];
  }
  return bandsHz.includes(nominalHz) ? left : reasons;
}

/**
 * Levels of the early reflections that reach into a band, each from its first notch up, but the one that a finding tells.
 *
 * @returns null where that one is not found again
 */
function otherReflections(
  results: Results,
  monitor: string,
  { atS, channels }: Finding,
  nominalHz: number,
): number[] | null {
  const measured = measuredAtMix(results, monitor);
  const told = measured.flatMap((one) =>
    atS !== null && channels.includes(one.channel) ? (sameReflection(one, atS) ?? []) : [],
  );
  const band = THIRD_OCTAVES.find((one) => one.nominalHz === nominalHz);
  if (told.length === 0 || !band) return null;
  return measured
    .flatMap(({ reflections }: Measurement) => reflections)
    .filter((one) => !told.includes(one) && one.delayS <= EARLY_UNTIL_S && one.firstNotchHz < bandEdges(band)[1])
    .map(({ levelDb }) => levelDb);
}

function over(size: number, limits: readonly Limit[]): Pick<Reason, "grade">[] {
  return limits.flatMap(({ care, blind }): Pick<Reason, "grade">[] => {
    if (blind !== null && size > blind) return [{ grade: "blind" }];
    return size > care ? [{ grade: "care" }] : [];
  });
}
