import type { Background } from "../../../model.js";
import { JUST_NOTICEABLE } from "../../../standards/just-noticeable.js";
import type { MonitorPair, Quantity, Reading } from "../reading.js";

const NAME = "noiseDb";
/**
 * Standard uncertainty of a room's noise whatever the silence's length: air handling, traffic and neighbours are not the same
 * from hour to hour. A choice of ours.
 */
const HOUR_TO_HOUR_DB = 1;

/** Noise by octave of the silence before the sweeps at the mix position; less is better. */
export const noise: Quantity<MonitorPair> = {
  of: ({ before, after, atMix }) => {
    // Two monitors of one session stand in one room with one noise.
    if (before.results === after.results) return [];
    const known = atMix.find(({ before, after }) => before.background && after.background);
    return known ? read(known.before.background!, known.after.background!) : [];
  },
  justNoticeable: { [NAME]: JUST_NOTICEABLE.noise },
};

function read(old: Background, now: Background): Reading[] {
  const calibrated = old.levelReference === "spl" && now.levelReference === "spl";
  return old.bands.flatMap((before) => {
    const after = now.bands.find(({ nominalHz }) => nominalHz === before.nominalHz);
    if (before.levelDb === null || after?.levelDb == null) return [];
    const own = [before.uncertaintyDb ?? null, after.uncertaintyDb ?? null];
    return [
      {
        quantity: NAME,
        bandHz: before.nominalHz,
        fraction: 1 as const,
        atS: null,
        unit: "dB" as const,
        before: before.levelDb,
        after: after.levelDb,
        uncertainty: own.includes(null) ? null : Math.hypot(...own.map((value) => Math.hypot(value!, HOUR_TO_HOUR_DB))),
        justNoticeable: JUST_NOTICEABLE.noise,
        goal: { name: "silence", before: before.levelDb, after: after.levelDb },
        reason: calibrated ? null : "no calibrator was recorded on both sides, so that the gain may differ",
      },
    ];
  });
}
