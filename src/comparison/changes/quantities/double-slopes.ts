import type { DoubleSlopeResult } from "../../../model.js";
import { JUST_NOTICEABLE } from "../../../standards/just-noticeable.js";
import { expandedUncertainty } from "../../../standards/real-difference.js";
import type { MonitorPair, Quantity, Reading } from "../reading.js";
import { decay } from "./decay.js";

const BOTH = "lateSlopeS";
const ONE_SIDED = "secondSlopeS";

/**
 * Time of the second, slower slope of octaves whose decay has two, of the whole session.
 *
 * Where only one session has a second slope, the other's decay goes on as it began: its one time, at the mix position, is the most that the
 * second could have. Whether it has gone is judged only where that time has changed with it. A decay of one slope is better.
 */
export const doubleSlopes: Quantity<MonitorPair> = {
  of: (pair) => {
    const [old, now] = [pair.before.results, pair.after.results];
    // Two monitors of one session share its slopes.
    if (old === now || !old.doubleSlopes || !now.doubleSlopes) return [];
    const octaves = new Set([...old.doubleSlopes, ...now.doubleSlopes].map(({ nominalHz }) => nominalHz));
    return [...octaves]
      .sort((a, b) => a - b)
      .map((bandHz) => {
        const [before, after] = [old.doubleSlopes!, now.doubleSlopes!].map((slopes) =>
          slopes.find(({ nominalHz }) => nominalHz === bandHz),
        );
        return before && after ? both(before, after) : oneSided((before ?? after)!, before ? "after" : "before", pair);
      });
  },
  justNoticeable: { [BOTH]: JUST_NOTICEABLE.decay, [ONE_SIDED]: JUST_NOTICEABLE.decay },
};

const GOAL = "a decay of one slope";
const base = { fraction: 1, atS: null, unit: "s", justNoticeable: JUST_NOTICEABLE.decay } as const;

function both(before: DoubleSlopeResult, after: DoubleSlopeResult): Reading {
  return {
    ...base,
    ...{ quantity: BOTH, bandHz: before.nominalHz, before: before.lateS, after: after.lateS },
    uncertainty: Math.hypot(before.lateUncertaintyS, after.lateUncertaintyS),
    goal: { name: GOAL, before: before.lateS - before.earlyS, after: after.lateS - after.earlyS },
    reason: null,
  };
}

function oneSided(slope: DoubleSlopeResult, missing: "before" | "after", pair: MonitorPair): Reading {
  const tail = oneSlope(pair, slope.nominalHz);
  const apartS = slope.lateS - slope.earlyS;
  return {
    ...base,
    ...{ quantity: ONE_SIDED, bandHz: slope.nominalHz, missing },
    before: missing === "before" ? (tail?.before ?? null) : slope.lateS,
    after: missing === "after" ? (tail?.after ?? null) : slope.lateS,
    uncertainty: tail && Math.hypot(slope.lateUncertaintyS, tail.uncertainty),
    goal: { name: GOAL, before: missing === "before" ? 0 : apartS, after: missing === "after" ? 0 : apartS },
    reason: whyNot(tail, missing),
  };
}

interface OneSlope {
  readonly before: number;
  readonly after: number;
  readonly uncertainty: number;
}

/** The octave's decay time as one line has it, the mean of the sides at the mix position; null where it was not read far down. */
function oneSlope({ atMix }: MonitorPair, bandHz: number): OneSlope | null {
  const sides = atMix.filter(({ before }) => !before.derived).map((pair) => decay.of(pair));
  const found = sides.flatMap((readings) => {
    const own = readings.filter((one) => one.bandHz === bandHz && one.fraction === 1 && one.reason === null);
    const one = own.find(({ quantity }) => quantity === "t30S") ?? own.find(({ quantity }) => quantity === "lateS");
    return one?.before != null && one.after !== null && one.uncertainty !== null
      ? [{ before: one.before, after: one.after, uncertainty: one.uncertainty }]
      : [];
  });
  if (found.length === 0 || found.length < sides.length) return null;
  const mean = (key: keyof OneSlope): number => found.reduce((sum, one) => sum + one[key], 0) / found.length;
  return { before: mean("before"), after: mean("after"), uncertainty: mean("uncertainty") };
}

/** Two fits of one decay may find a second slope or not, by chance; a decay time does not follow them. A choice of ours. */
function whyNot(tail: OneSlope | null, missing: "before" | "after"): string | null {
  if (!tail) return "no decay of this octave was read far enough down on both sides";
  const shorterS = missing === "after" ? tail.before - tail.after : tail.after - tail.before;
  return shorterS > expandedUncertainty([tail.uncertainty])!
    ? null
    : "the decay time of the octave has not changed with it by more than its uncertainty, so that the second slope may be there on both sides";
}
