import { JUST_NOTICEABLE } from "../../../standards/just-noticeable.js";
import { ALIGNMENT_HZ, bandCurve, rangeLevelDb, rangeUncertaintyDb } from "../../band-curve.js";
import type { MeasurementPair, Quantity } from "../reading.js";
import { sameSweep } from "../same-sweep.js";

const NAME = "overallDb";

/** Level over 200 Hz to 4 kHz, where the same gain can be vouched for. No level is better than another. */
export const overallLevel: Quantity<MeasurementPair> = {
  of: (pair) => {
    const { before, after } = pair;
    if (before.derived || after.derived) return [];
    const curves = [bandCurve([before]), bandCurve([after])] as const;
    const levels = curves.map((curve) => rangeLevelDb(curve, ...ALIGNMENT_HZ));
    const own = curves.map((curve) => rangeUncertaintyDb(curve, ...ALIGNMENT_HZ));
    if (levels.includes(null)) return [];
    return [
      {
        quantity: NAME,
        bandHz: null,
        fraction: null,
        atS: null,
        unit: "dB",
        before: levels[0]!,
        after: levels[1]!,
        uncertainty: own.includes(null) ? null : Math.hypot(...own.map((value) => value!)),
        justNoticeable: JUST_NOTICEABLE.overallLevel,
        goal: null,
        reason: sameScale(pair) ? null : "the gain may have been another: no calibrator was recorded on both sides",
      },
    ];
  },
  justNoticeable: { [NAME]: JUST_NOTICEABLE.overallLevel },
};

/** Sound pressures can be compared; without them only what one session recorded with one gain. The sweep counts as well. */
function sameScale({ before, after, sides }: MeasurementPair): boolean {
  const [old, now] = [sides.before.results, sides.after.results];
  if (old === now && old.session.microphone?.gainFixed === true) return true;
  return sameSweep(old, now) && before.levelReference === "spl" && after.levelReference === "spl";
}
