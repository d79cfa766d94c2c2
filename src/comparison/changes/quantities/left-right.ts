import type { MonitorResult } from "../../../model.js";
import { THIRD_OCTAVES } from "../../../standards/iec61260.js";
import { JUST_NOTICEABLE } from "../../../standards/just-noticeable.js";
import { differenceByPlacement } from "../placement.js";
import type { MonitorPair, Quantity, Reading } from "../reading.js";

const BAND = "leftRightDb";
const ARRIVAL = "leftRightArrivalS";
const SPEED_OF_SOUND = 343;

type LeftRight = NonNullable<MonitorResult["leftRight"]>;

/** Left minus right at the mix position: level by third octave, and arrival. Nearer to nothing is better. */
export const leftRight: Quantity<MonitorPair> = {
  of: (pair) => {
    const [old, now] = [pair.before.monitor.leftRight, pair.after.monitor.leftRight];
    return old && now ? [...bands(old, now, pair), ...arrival(old, now, pair)] : [];
  },
  justNoticeable: { [BAND]: JUST_NOTICEABLE.sideLevel, [ARRIVAL]: JUST_NOTICEABLE.sideArrival },
};

function bands(old: LeftRight, now: LeftRight, pair: MonitorPair): Reading[] {
  // One recording with another gain than the other would pass for a difference of the sides.
  const gain =
    old.includesGain || now.includesGain ? "left and right were recorded in two files, and the gain may differ" : null;
  return old.bands.flatMap((before) => {
    const after = now.bands.find(({ nominalHz }) => nominalHz === before.nominalHz);
    const band = THIRD_OCTAVES.find(({ nominalHz }) => nominalHz === before.nominalHz);
    if (before.differenceDb === null || after?.differenceDb == null || !band) return [];
    const own = [before.uncertaintyDb, after.uncertaintyDb];
    return [
      {
        quantity: BAND,
        bandHz: before.nominalHz,
        fraction: 3 as const,
        atS: null,
        unit: "dB" as const,
        before: before.differenceDb,
        after: after.differenceDb,
        uncertainty: own.includes(null)
          ? null
          : Math.hypot(...own.map((value) => value!), differenceByPlacement(pair, band)),
        justNoticeable: JUST_NOTICEABLE.sideLevel,
        goal: equal(before.differenceDb, after.differenceDb),
        reason: gain,
      },
    ];
  });
}

function arrival(old: LeftRight, now: LeftRight, pair: MonitorPair): Reading[] {
  if (old.arrivalS === null || now.arrivalS === null) return [];
  const own = [old.arrivalUncertaintyS, now.arrivalUncertaintyS];
  // A step to the side makes one way longer and the other shorter; one direction of three, and no more than the step itself each.
  const placement = (2 * pair.apartM) / Math.sqrt(3) / SPEED_OF_SOUND;
  return [
    {
      quantity: ARRIVAL,
      bandHz: null,
      fraction: null,
      atS: null,
      unit: "s",
      before: old.arrivalS,
      after: now.arrivalS,
      uncertainty: own.includes(null) ? null : Math.hypot(...own.map((value) => value!), placement),
      justNoticeable: JUST_NOTICEABLE.sideArrival,
      goal: equal(old.arrivalS, now.arrivalS),
      reason: null,
    },
  ];
}

function equal(before: number, after: number): Reading["goal"] {
  return { name: "equal sides", before: Math.abs(before), after: Math.abs(after) };
}
