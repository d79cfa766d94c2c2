import type { Measurement, MonitorResult } from "../../model.js";
import { expandedUncertainty } from "../../standards/real-difference.js";
import { highestBetween } from "../highest-between.js";

export type OneSidedReflection = NonNullable<MonitorResult["leftRight"]>["oneSided"][number];

/** What counts as an early reflection that colours: choices of ours, near to what recommendations ask for (15 ms, -10 dB). */
const EARLY_S = 0.02;
const LOUDEST_BELOW_DB = -15;
/** Reflections of the two sides belong together within 0.5 ms, or 17 cm of path: a choice of ours. */
const TOGETHER_S = 0.0005;
/** A side lacks a reflection when it is so much weaker there: a choice of ours. */
const WEAKER_DB = 6;

/**
 * Finds early reflections of one side to which the other has none: up to 20 ms late, at -15 dB or more re that side's
 * direct sound.
 *
 * Whether the other side has one is asked of its energy-time curve, not of its list, so that a reflection that merely was not
 * listed does not count as missing: everything within 0.5 ms must lie 6 dB lower, and lower still by the expanded uncertainty
 * of the reflection's level. One that comes at another time on the other side counts as missing: the image is pulled all
 * the same.
 *
 * @param sides - left and right of one monitor at one place
 * @returns by delay, left before right; nothing where the other side's energy-time curve is not known or does not reach
 */
export function oneSidedReflections(sides: { left: Measurement; right: Measurement }): OneSidedReflection[] {
  return [...lacking(sides.left, sides.right), ...lacking(sides.right, sides.left)].sort((a, b) => a.delayS - b.delayS);
}

function lacking(side: Measurement, other: Measurement): OneSidedReflection[] {
  return side.reflections.flatMap(({ delayS, levelDb, levelUncertaintyDb }) => {
    if (delayS > EARLY_S || levelDb < LOUDEST_BELOW_DB) return [];
    const there = highestBetween(other.energyTime, delayS - TOGETHER_S, delayS + TOGETHER_S);
    if (!there) return [];
    const least = WEAKER_DB + expandedUncertainty([levelUncertaintyDb])!;
    if (there.levelDb !== null && levelDb - there.levelDb < least) return [];
    return [{ channel: side.channel, delayS, levelDb, levelUncertaintyDb, otherLevelDb: there.levelDb }];
  });
}
