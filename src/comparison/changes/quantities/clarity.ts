import type { BandMetrics } from "../../../model.js";
import { JUST_NOTICEABLE } from "../../../standards/just-noticeable.js";
import { otherRange } from "../other-range.js";
import { levelByPlacement } from "../placement.js";
import type { MeasurementPair, Quantity, Reading } from "../reading.js";

/** The octaves that ISO 3382-1 gives for it, and 8 kHz; under them 50 ms hold less than the filter's own ringing. From memory. */
const FROM_HZ = 125;

/**
 * Clarity C50 and C80 by octave.
 *
 * No limit is published for control rooms, so that a change has no better or worse.
 */
export const clarity: Quantity<MeasurementPair> = {
  of: (pair) =>
    pair.before.bands.flatMap((before) => {
      const after = pair.after.bands.find(
        ({ fraction, nominalHz }) => fraction === 1 && nominalHz === before.nominalHz,
      );
      return before.fraction === 1 && before.nominalHz >= FROM_HZ && after
        ? kinds.flatMap((kind) => read(kind, before, after, pair))
        : [];
    }),
  justNoticeable: { c50Db: JUST_NOTICEABLE.clarity50, c80Db: JUST_NOTICEABLE.clarity80 },
};

const kinds = [
  { key: "c50Db", uncertaintyKey: "c50UncertaintyDb", justNoticeable: JUST_NOTICEABLE.clarity50 },
  { key: "c80Db", uncertaintyKey: "c80UncertaintyDb", justNoticeable: JUST_NOTICEABLE.clarity80 },
] as const;

function read(
  { key, uncertaintyKey, justNoticeable }: (typeof kinds)[number],
  before: BandMetrics,
  after: BandMetrics,
  pair: MeasurementPair,
): Reading[] {
  if (before[key] === null && after[key] === null) return [];
  const own = [before[uncertaintyKey] ?? null, after[uncertaintyKey] ?? null];
  // The early and the late part move each for itself.
  const placement = Math.SQRT2 * levelByPlacement(pair, before);
  return [
    {
      quantity: key,
      bandHz: before.nominalHz,
      fraction: 1,
      atS: null,
      unit: "dB",
      before: before[key],
      after: after[key],
      uncertainty: own.includes(null) ? null : Math.hypot(...own.map((value) => value!), placement),
      justNoticeable,
      goal: null,
      reason: otherRange(before, after),
    },
  ];
}
