import { JUST_NOTICEABLE } from "../../../standards/just-noticeable.js";
import { type BandCurve, bandCurve } from "../../band-curve.js";
import { type Extension, extension as extensionOf } from "../../extension.js";
import { sidesOf } from "../../positions/places.js";
import type { MonitorPair, Quantity, Reading } from "../reading.js";

const kinds = ["minus3Hz", "minus6Hz", "minus10Hz"] as const;

/** How far down the pair reaches at the mix position; lower is better. */
export const extension: Quantity<MonitorPair> = {
  of: (pair) => {
    const old = ends(pair.atMix.map(({ before }) => before));
    const now = ends(pair.atMix.map(({ after }) => after));
    return old && now ? kinds.map((kind) => read(kind, old, now)).filter((reading) => reading !== null) : [];
  },
  justNoticeable: Object.fromEntries(kinds.map((kind) => [kind, JUST_NOTICEABLE.extension])),
};

interface Ends {
  readonly end: Extension;
  /** With the bass as much louder and quieter as the uncertainty has it. */
  readonly louder: Extension;
  readonly quieter: Extension;
}

function ends(measured: MonitorPair["atMix"][number]["before"][]): Ends | null {
  const sides = sidesOf(measured);
  if (sides.length === 0) return null;
  const curve = bandCurve(sides);
  const [end, louder, quieter] = [extensionOf(curve), extensionOf(moved(curve, 2)), extensionOf(moved(curve, -2))];
  return end && louder && quieter && { end, louder, quieter };
}

/** Below the range that the end is held against, every level moved by so many of its uncertainties. */
function moved(curve: BandCurve, factor: number): BandCurve {
  return {
    ...curve,
    levelDb: curve.levelDb.map((level, k) => {
      const uncertainty = curve.uncertaintyDb[k];
      return level === null || uncertainty == null || curve.nominalHz[k]! >= REFERENCE_FROM_HZ
        ? level
        : level + factor * uncertainty;
    }),
  };
}

const REFERENCE_FROM_HZ = 200;

function read(kind: (typeof kinds)[number], old: Ends, now: Ends): Reading | null {
  const [before, after] = [old.end[kind], now.end[kind]];
  if (before === null && after === null) return null;
  const own = [spread(kind, old), spread(kind, now)];
  return {
    quantity: kind,
    bandHz: null,
    fraction: null,
    atS: null,
    unit: "Hz",
    before,
    after,
    uncertainty: own.includes(null) ? null : Math.hypot(...own.map((value) => value!)),
    justNoticeable: JUST_NOTICEABLE.extension,
    goal: before === null || after === null ? null : { name: "the bottom", before, after },
    reason: null,
  };
}

/** Standard uncertainty: a quarter of what twice the levels' own, either way, moves the end by. */
function spread(kind: (typeof kinds)[number], { louder, quieter }: Ends): number | null {
  const [low, high] = [louder[kind], quieter[kind]];
  return low === null || high === null ? null : Math.abs(high - low) / 4;
}
