import type { Measurement, MonitorResult } from "../../model.js";
import { type BandCurve, bandCurve } from "../band-curve.js";

export type PhantomBand = NonNullable<NonNullable<MonitorResult["leftRight"]>["phantom"]>[number];

/** Two equal sounds in step are twice the pressure: 20 lg 2. */
const IN_STEP_DB = 20 * Math.log10(2);
const DB_PER_SHARE = 20 / Math.LN10;

/**
 * Holds the phantom centre against either side, by third octave as far as it is stated.
 *
 * 0 dB is what two equal sides in step would give; a negative value is what kick, bass and voice lose when they are panned to
 * the middle, since the two ways through the room do not arrive in step.
 *
 * The phantom is summed from the two sides, so their errors are in it, the larger the more they cancel; so is the error of
 * the time between them. Its own is at least that. Against a side it is taken as independent of it, which overstates.
 *
 * @param phantom - derived from `left` and `right`
 * @param arrivalUncertaintyS - standard uncertainty of the time between left and right; null where not known
 * @returns `uncertaintyDb` is the larger of the two sides'; null where not known
 */
export function phantomAgainstSides(
  phantom: Measurement,
  left: Measurement,
  right: Measurement,
  arrivalUncertaintyS: number | null,
): PhantomBand[] {
  const [centre, ...sides] = [phantom, left, right].map((one) => bandCurve([one]));
  return centre!.nominalHz.map((nominalHz, k) => {
    const levelDb = centre!.levelDb[k] ?? null;
    const [l, r] = sides.map((side) => at(side, nominalHz));
    const summed = sumUncertainty(levelDb, l!, r!, phaseError(centre!.exactHz[k]!, arrivalUncertaintyS));
    const own = centre!.uncertaintyDb[k] ?? null;
    const against = (side: Entry): number | null =>
      levelDb === null || side.levelDb === null ? null : levelDb - IN_STEP_DB - side.levelDb;
    return {
      nominalHz,
      againstLeftDb: against(l!),
      againstRightDb: against(r!),
      uncertaintyDb:
        own === null || summed === null || l!.uncertaintyDb === null || r!.uncertaintyDb === null
          ? null
          : Math.hypot(Math.max(own, summed), Math.max(l!.uncertaintyDb, r!.uncertaintyDb)),
    };
  });
}

interface Entry {
  readonly levelDb: number | null;
  readonly uncertaintyDb: number | null;
}

function at(curve: BandCurve, nominalHz: number): Entry {
  const k = curve.nominalHz.indexOf(nominalHz);
  return { levelDb: curve.levelDb[k] ?? null, uncertaintyDb: curve.uncertaintyDb[k] ?? null };
}

function phaseError(frequencyHz: number, timeErrorS: number | null): number | null {
  return timeErrorS === null ? null : 2 * Math.PI * frequencyHz * timeErrorS;
}

/**
 * Standard uncertainty of the level of a sum of two pressures.
 *
 * The levels' errors move the sum by at most their own pressure; an error of phase by at most the product of the two
 * pressures over their sum.
 */
function sumUncertainty(levelDb: number | null, l: Entry, r: Entry, phase: number | null): number | null {
  const nothing = [levelDb, l.levelDb, l.uncertaintyDb, r.levelDb, r.uncertaintyDb, phase].includes(null);
  if (nothing) return null;
  const [a, b, sum] = [l.levelDb!, r.levelDb!, levelDb!].map((level) => 10 ** (level / 20)) as [number, number, number];
  const byLevels = Math.hypot(a * l.uncertaintyDb!, b * r.uncertaintyDb!) / sum;
  return Math.hypot(byLevels, DB_PER_SHARE * phase! * ((a * b) / (sum * sum)));
}
