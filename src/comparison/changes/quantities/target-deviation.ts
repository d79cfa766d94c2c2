import { THIRD_OCTAVES } from "../../../standards/iec61260.js";
import { JUST_NOTICEABLE } from "../../../standards/just-noticeable.js";
import { pairLevelByPlacement } from "../placement.js";
import type { MonitorPair, Quantity } from "../reading.js";
import { pastTheEnd, targetGoal } from "../target-level.js";

const NAME = "targetDb";

/** Deviation of the pair at the mix position from its target, by third octave; nearer to it is better. */
export const targetDeviation: Quantity<MonitorPair> = {
  of: (pair) => {
    const [old, now] = [pair.before.monitor.target, pair.after.monitor.target];
    if (!old || !now) return [];
    return old.bands.flatMap((before) => {
      const after = now.bands.find(({ nominalHz }) => nominalHz === before.nominalHz);
      const band = THIRD_OCTAVES.find(({ nominalHz }) => nominalHz === before.nominalHz);
      if (before.deviationDb === null || after?.deviationDb == null || !band) return [];
      const own = [before.uncertaintyDb, after.uncertaintyDb];
      return [
        {
          quantity: NAME,
          bandHz: before.nominalHz,
          fraction: 3 as const,
          atS: null,
          unit: "dB" as const,
          before: before.deviationDb,
          after: after.deviationDb,
          uncertainty: own.includes(null)
            ? null
            : Math.hypot(...own.map((value) => value!), pairLevelByPlacement(pair, band)),
          justNoticeable: JUST_NOTICEABLE.bandLevel,
          goal: targetGoal(before.deviationDb, after.deviationDb),
          reason: pastTheEnd(before.deviationDb, after.deviationDb),
        },
      ];
    });
  },
  justNoticeable: { [NAME]: JUST_NOTICEABLE.bandLevel },
};
