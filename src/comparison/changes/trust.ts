import type { Translation } from "../../model.js";
import type { ChangedQuantity } from "../../schema/changes.js";

type TrustBand = Translation["trust"][number]["bands"][number];
type Reason = TrustBand["reasons"][number];
type Code = Reason["code"];

const NAME = "trust";
const STEPS = { believe: 2, care: 1, blind: 0 } as const;

/** What a reason is made of, by name of the quantity; in its own band, or anywhere on the monitor. */
const MADE_OF: Readonly<Record<Code, { readonly names: readonly string[]; readonly inBand: boolean } | null>> = {
  "deviation-peak": { names: ["targetDb"], inBand: true },
  "deviation-dip": { names: ["targetDb"], inBand: true },
  "left-right": { names: ["leftRightDb"], inBand: true },
  ringing: { names: ["t20S", "t30S", "lateS", "targetDb"], inBand: true },
  "early-reflection": { names: ["reflectionDb"], inBand: false },
  extension: { names: ["targetDb"], inBand: true },
  audibility: { names: ["targetDb"], inBand: true },
  spread: null,
  distortion: null,
  uncertainty: null,
  "one-place": null,
  "not-measured": null,
};
/** These speak of how it was measured, not of the room. */
const OF_THE_MEASURING: readonly Code[] = ["uncertainty", "one-place", "not-measured"];

/**
 * Grades of the trust map, band by band.
 *
 * A grade hangs on limits, and a figure near a limit crosses it by chance. So a grade has changed only where what it is made of has: to rise, every
 * reason that was against it must have gone by a real change; to fall, one real change is enough.
 *
 * @param judged - everything of the monitor at the mix position that was judged already
 */
export function trustChanges(
  before: readonly TrustBand[],
  after: readonly TrustBand[],
  judged: readonly ChangedQuantity[],
): ChangedQuantity[] {
  return before.flatMap((old) => {
    const now = after.find(({ nominalHz }) => nominalHz === old.nominalHz);
    if (!now || (old.grade === null && now.grade === null)) return [];
    const [from, to] = [stepOf(old), stepOf(now)];
    return [
      {
        quantity: NAME,
        bandHz: old.nominalHz,
        fraction: 3 as const,
        atS: null,
        unit: "grade" as const,
        before: from,
        after: to,
        missing: null,
        difference: from === null || to === null ? null : to - from,
        uncertainty: null,
        justNoticeable: null,
        needed: null,
        ...verdict(old, now, judged),
      },
    ];
  });
}

function stepOf({ grade }: TrustBand): number | null {
  return grade === null ? null : STEPS[grade];
}

function verdict(
  old: TrustBand,
  now: TrustBand,
  judged: readonly ChangedQuantity[],
): Pick<ChangedQuantity, "change" | "verdict" | "because"> {
  const [from, to] = [stepOf(old), stepOf(now)];
  if (from === null || to === null) {
    const because = from === null ? "it was not measured before" : "it was not measured after";
    return { change: "cannot-tell", verdict: "cannot-tell", because };
  }
  if (from === to) return { change: "none", verdict: "no-real-change", because: "the grade is the same" };
  const rises = to > from;
  const better = rises ? to : from;
  const decisive = (rises ? old : now).reasons.filter(({ grade }) => grade !== null && STEPS[grade] < better);
  const names = [...new Set(decisive.map(({ code }) => code.replaceAll("-", " ")))].join(", ");
  const isBacked = (reason: Reason): boolean => hasTurned(reason, rises ? "better" : "worse", old.nominalHz, judged);
  if (rises ? decisive.every(isBacked) : decisive.some(isBacked)) {
    const because = rises ? `what spoke against it has changed for real: ${names}` : `for a real change: ${names}`;
    return { change: "real", verdict: rises ? "better" : "worse", because };
  }
  const ofMeasuring = decisive.every(({ code }) => OF_THE_MEASURING.includes(code));
  const because = ofMeasuring
    ? `what was measured is another (${names}), not what it was measured of`
    : `it hangs on ${names}, of which no real change is known`;
  return { change: "cannot-tell", verdict: "cannot-tell", because };
}

/** Whether something that a reason is made of is really better, or worse. */
function hasTurned(
  { code }: Reason,
  way: "better" | "worse",
  nominalHz: number,
  judged: readonly ChangedQuantity[],
): boolean {
  const made = MADE_OF[code];
  if (!made) return false;
  return judged.some(
    ({ quantity, bandHz, fraction, verdict }) =>
      verdict === way && made.names.includes(quantity) && (!made.inBand || (bandHz === nominalHz && fraction === 3)),
  );
}
