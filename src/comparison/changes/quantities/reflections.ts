import type { Measurement, Reflection } from "../../../model.js";
import { EARLY_REFLECTIONS } from "../../../standards/bs1116.js";
import { JUST_NOTICEABLE } from "../../../standards/just-noticeable.js";
import { highestBetween } from "../../highest-between.js";
import type { MeasurementPair, Quantity, Reading } from "../reading.js";

const NAME = "reflectionDb";
/** Later and weaker ones are the room's decay, not a surface that one could point at: choices of ours. */
const UNTIL_S = 0.02;
const WEAKEST_DB = -20;
/** How exactly one measurement tells a delay. */
const SAME_S = 0.0002;
const SPEED_OF_SOUND = 343;

/**
 * Early reflections, those of before and after that come at one delay.
 *
 * What only one of the two lists is looked for in the other's energy-time curve: it is there at most as strong as that.
 * Farther under the recommended limit is better as long as the limit is not kept.
 */
export const reflections: Quantity<MeasurementPair> = {
  of: read,
  justNoticeable: { [NAME]: JUST_NOTICEABLE.reflection },
};

interface Match {
  readonly before: Reflection | null;
  readonly after: Reflection | null;
}

function read(pair: MeasurementPair): Reading[] {
  const { before, after, apartM } = pair;
  if (before.derived || after.derived || !before.energyTime || !after.energyTime) return [];
  // Moved by so much, a path becomes longer or shorter by as much at most, and so does the direct one.
  const togetherS = SAME_S + (2 * apartM) / SPEED_OF_SOUND;
  return matched(before.reflections, after.reflections, togetherS).flatMap(({ before: old, after: now }) => {
    const known = (old ?? now)!;
    const strongest = Math.max(old?.levelDb ?? -Infinity, now?.levelDb ?? -Infinity);
    if (known.delayS > UNTIL_S || strongest < WEAKEST_DB) return [];
    const [oldDb, nowDb] = [levelOf(old, before, known, togetherS), levelOf(now, after, known, togetherS)];
    if (oldDb === null || nowDb === null) return [];
    return [
      {
        quantity: NAME,
        bandHz: null,
        fraction: null,
        atS: known.delayS,
        unit: "dB" as const,
        before: oldDb,
        after: nowDb,
        missing: old === null ? "before" : now === null ? "after" : null,
        uncertainty: Math.hypot(doubtOf(old, known), doubtOf(now, known), coincidence(apartM)),
        justNoticeable: JUST_NOTICEABLE.reflection,
        goal:
          known.delayS > EARLY_REFLECTIONS.untilS
            ? null
            : { name: "the recommended 10 dB under the direct sound", before: over(oldDb), after: over(nowDb) },
        reason: null,
      },
    ];
  });
}

/** Pairs of one delay, the nearest first, and what is left over on either side. */
function matched(before: readonly Reflection[], after: readonly Reflection[], togetherS: number): Match[] {
  const near = before
    .flatMap((old) => after.map((now) => ({ before: old, after: now })))
    .map((match) => ({ ...match, apartS: Math.abs(match.before.delayS - match.after.delayS) }))
    .filter(({ apartS }) => apartS <= togetherS)
    .sort((a, b) => a.apartS - b.apartS);
  const taken = new Set<Reflection>();
  const pairs: Match[] = [];
  for (const { before: old, after: now } of near) {
    if (taken.has(old) || taken.has(now)) continue;
    taken.add(old).add(now);
    pairs.push({ before: old, after: now });
  }
  const alone = [
    ...before.filter((one) => !taken.has(one)).map((one) => ({ before: one, after: null })),
    ...after.filter((one) => !taken.has(one)).map((one) => ({ before: null, after: one })),
  ];
  return [...pairs, ...alone].sort((a, b) => delayOf(a) - delayOf(b));
}

function delayOf({ before, after }: Match): number {
  return (before ?? after)!.delayS;
}

/** Its own level, or the most that can be there; null where that is not known. */
function levelOf(
  own: Reflection | null,
  { energyTime }: Measurement,
  { delayS }: Reflection,
  togetherS: number,
): number | null {
  return own ? own.levelDb : (highestBetween(energyTime, delayS - togetherS, delayS + togetherS)?.levelDb ?? null);
}

/** What is not listed is taken to be known as well as its counterpart. */
function doubtOf(own: Reflection | null, known: Reflection): number {
  return Math.max(LEAST_DB, (own ?? known).levelUncertaintyDb);
}

/** The middle of 1 to 8 kHz. */
const MIDDLE_HZ = 2830;
/** So much of a peak may be a second reflection that happens to come with it: a choice of ours. */
const SECOND_SHARE = 0.5;

/** A peak of two reflections grows and shrinks as the microphone moves, since one of them comes later; dB. */
function coincidence(apartM: number): number {
  const turn = (2 * Math.PI * MIDDLE_HZ * apartM) / Math.sqrt(3) / SPEED_OF_SOUND;
  return (20 / Math.LN10) * SECOND_SHARE * turn;
}

/** Nobody knows the level of a peak better than that of a band. */
const LEAST_DB = 0.2;

function over(levelDb: number): number {
  return Math.max(0, levelDb - EARLY_REFLECTIONS.mostDb);
}
