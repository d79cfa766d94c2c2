import type { MonitorResult } from "../../../model.js";
import { JUST_NOTICEABLE } from "../../../standards/just-noticeable.js";
import { decayGoal } from "../decay-goal.js";
import type { MonitorPair, Quantity, Reading } from "../reading.js";
import { alignedLevels, alignmentBands, pastTheEnd, targetGoal } from "../target-level.js";

const LEVEL = "roomLevelDb";
const DECAY = "roomDecayS";

type Positions = NonNullable<MonitorResult["positions"]>;

/**
 * Means over positions, with what is known of them in the room: what other places like these would have given is in the
 * uncertainty, so that a change here is one of the room and not of a place.
 */
export const roomMeans: Quantity<MonitorPair> = {
  of: (pair) => {
    const [old, now] = [pair.before.monitor.positions, pair.after.monitor.positions];
    return old && now ? [...levels(old, now, pair), ...decays(old, now, pair)] : [];
  },
  justNoticeable: { [LEVEL]: JUST_NOTICEABLE.bandLevel, [DECAY]: JUST_NOTICEABLE.decay },
};

function levels(old: Positions, now: Positions, pair: MonitorPair): Reading[] {
  const bands = old.bands.flatMap((before) => {
    const after = now.bands.find(({ nominalHz }) => nominalHz === before.nominalHz);
    return before.levelDb === null || after?.levelDb == null ? [] : [{ before, after }];
  });
  const by = alignmentBands(bands.map(({ before }) => before.nominalHz));
  if (!by) return [];
  const row = (side: "before" | "after") => (band: (typeof bands)[number]) => ({
    nominalHz: band[side].nominalHz,
    levelDb: band[side].levelDb!,
  });
  const [one, other] = [
    alignedLevels(bands.map(row("before")), by, pair.before.monitor.target),
    alignedLevels(bands.map(row("after")), by, pair.after.monitor.target),
  ];
  return bands.map(({ before, after }) => {
    const [was, is] = [one.get(before.nominalHz)!, other.get(before.nominalHz)!];
    const own = [before.roomUncertaintyDb, after.roomUncertaintyDb];
    return {
      quantity: LEVEL,
      bandHz: before.nominalHz,
      fraction: 3,
      atS: null,
      unit: "dB",
      before: was.levelDb,
      after: is.levelDb,
      uncertainty: own.includes(null) ? null : Math.hypot(...own.map((value) => value!)),
      justNoticeable: JUST_NOTICEABLE.bandLevel,
      goal: targetGoal(was.deviationDb, is.deviationDb),
      reason: pastTheEnd(was.deviationDb, is.deviationDb),
    };
  });
}

function decays(old: Positions, now: Positions, pair: MonitorPair): Reading[] {
  return old.decay.flatMap((before) => {
    const after = now.decay.find(({ nominalHz }) => nominalHz === before.nominalHz);
    if (before.timeS === null || after?.timeS == null) return [];
    const own = [before.roomUncertaintyS, after.roomUncertaintyS];
    return [
      {
        quantity: DECAY,
        bandHz: before.nominalHz,
        fraction: 1 as const,
        atS: null,
        unit: "s" as const,
        before: before.timeS,
        after: after.timeS,
        uncertainty: own.includes(null) ? null : Math.hypot(...own.map((value) => value!)),
        justNoticeable: JUST_NOTICEABLE.decay,
        goal: decayGoal(before.nominalHz, before.timeS, after.timeS, pair.after.volumeM3 ?? pair.before.volumeM3),
        reason: null,
      },
    ];
  });
}
