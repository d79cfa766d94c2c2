import type { BandMetrics, Measurement } from "../../../model.js";
import { JUST_NOTICEABLE } from "../../../standards/just-noticeable.js";
import { levelByPlacement } from "../placement.js";
import type { MeasurementPair, Quantity, Reading } from "../reading.js";
import { alignedLevels, alignmentBands, pastTheEnd, targetGoal } from "../target-level.js";

const NAME = "levelDb";

/**
 * Level by third octave, re the mean of 200 Hz to 4 kHz: the shape, which no gain between two days can pretend.
 *
 * Nearer to the monitor's target is better.
 */
export const thirdOctaveLevel: Quantity<MeasurementPair> = {
  of: read,
  justNoticeable: { [NAME]: JUST_NOTICEABLE.bandLevel },
};

interface Twice {
  readonly before: BandMetrics;
  readonly after: BandMetrics;
}

function read(pair: MeasurementPair): Reading[] {
  const bands = commonThirds(pair.before, pair.after);
  const by = alignmentBands(bands.map(({ before }) => before.nominalHz));
  if (!by) return [];
  const row = (side: "before" | "after") => (twice: Twice) => ({
    nominalHz: twice[side].nominalHz,
    levelDb: twice[side].levelDb!,
  });
  const before = alignedLevels(bands.map(row("before")), by, pair.sides.before.monitor.target);
  const after = alignedLevels(bands.map(row("after")), by, pair.sides.after.monitor.target);
  const offset = offsetUncertainty(bands.filter((twice) => by.has(twice.before.nominalHz)));
  return bands.map((twice) => {
    const { nominalHz } = twice.before;
    const [old, now] = [before.get(nominalHz)!, after.get(nominalHz)!];
    const own = [twice.before.levelUncertaintyDb, twice.after.levelUncertaintyDb];
    return {
      quantity: NAME,
      bandHz: nominalHz,
      fraction: 3,
      atS: null,
      unit: "dB",
      before: old.levelDb,
      after: now.levelDb,
      uncertainty:
        own.includes(null) || offset === null
          ? null
          : Math.hypot(...own.map((value) => value!), offset, levelByPlacement(pair, twice.before)),
      justNoticeable: JUST_NOTICEABLE.bandLevel,
      goal: targetGoal(old.deviationDb, now.deviationDb),
      reason: pastTheEnd(old.deviationDb, now.deviationDb),
    };
  });
}

/** Third octaves that both have a level in. */
function commonThirds(before: Measurement, after: Measurement): Twice[] {
  return before.bands.flatMap((band) => {
    if (band.fraction !== 3 || band.levelDb === null) return [];
    const other = after.bands.find((one) => one.fraction === 3 && one.nominalHz === band.nominalHz);
    return other?.levelDb == null ? [] : [{ before: band, after: other }];
  });
}

/** Of the difference of the two means, the bands' errors taken as independent: what they share goes with the mean. */
function offsetUncertainty(bands: readonly Twice[]): number | null {
  const all = bands.flatMap(({ before, after }) => [before.levelUncertaintyDb, after.levelUncertaintyDb]);
  return all.includes(null) ? null : Math.hypot(...all.map((value) => value!)) / bands.length;
}
