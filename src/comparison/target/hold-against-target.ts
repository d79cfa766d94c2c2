import type { TargetResult } from "../../model.js";
import { RESPONSE_REFERENCE_HZ } from "../../standards/bs1116.js";
import { limitsAt } from "../../standards/limit-mask.js";
import type { BandCurve } from "../band-curve.js";
import { isAdvisoryTarget, type Target, targetLevel } from "./target.js";

/** With fewer bands in common an offset says nothing: one octave. A choice of ours. */
const LEAST_FIT_BANDS = 3;

/** A monitor against its target; without an offset no deviation is known, and the reason says why. */
export interface HeldTarget {
  readonly target: TargetResult;
  readonly reason: "fit-range-not-measured" | "target-outside-fit-range" | null;
}

/**
 * Lays a target on a third-octave curve and tells the deviation in each band.
 *
 * The offset is the mean, in dB, of measured minus target over the third octaves from 200 Hz to 4 kHz that the target covers:
 * every band weighs the same, and no other offset leaves a smaller RMS deviation there. For a flat target it is the mean of
 * the levels, which is how the standards' reference level reads where it is quoted. The energy mean would lie higher, by
 * 0.5 dB for a spread of 2 dB, since peaks outweigh dips in it: an error of 0.5 dB in limits of 3 dB.
 *
 * The uncertainty is that of the band and that of the offset, taken as independent: what all bands share (gain) has
 * gone with the offset.
 *
 * @param curve - third octaves, dB; a null stays null
 * @returns `fitHz` are the first and last band of the fit
 */
export function holdAgainstTarget(
  curve: Pick<BandCurve, "nominalHz" | "levelDb" | "uncertaintyDb">,
  target: Target,
): HeldTarget {
  const rows = curve.nominalHz.map((nominalHz, k) => {
    const targetDb = targetLevel(target, nominalHz);
    const levelDb = curve.levelDb[k] ?? null;
    const { lower: lowerDb, upper: upperDb } = limitsAt(target.limits, nominalHz);
    return {
      nominalHz,
      targetDb,
      aboveDb: levelDb === null || targetDb === null ? null : levelDb - targetDb,
      uncertaintyDb: curve.uncertaintyDb[k] ?? null,
      lowerDb: targetDb === null ? null : lowerDb,
      upperDb: targetDb === null ? null : upperDb,
    };
  });
  const fitted = rows.filter(({ nominalHz, targetDb }) => targetDb !== null && inFitRange(nominalHz));
  const reason =
    fitted.length < LEAST_FIT_BANDS
      ? "target-outside-fit-range"
      : fitted.some(({ aboveDb }) => aboveDb === null)
        ? "fit-range-not-measured"
        : null;
  const offsetDb = reason === null ? mean(fitted.map(({ aboveDb }) => aboveDb!)) : null;
  const offsetUncertaintyDb = meanUncertainty(fitted.map((row) => row.uncertaintyDb));
  const bands = rows.map(({ nominalHz, targetDb, aboveDb, uncertaintyDb, lowerDb, upperDb }) => {
    const deviationDb = aboveDb === null || offsetDb === null ? null : aboveDb - offsetDb;
    const known = deviationDb !== null && uncertaintyDb !== null && offsetUncertaintyDb !== null;
    return {
      nominalHz,
      targetDb,
      deviationDb,
      uncertaintyDb: known ? Math.hypot(uncertaintyDb, offsetUncertaintyDb) : null,
      lowerDb,
      upperDb,
    };
  });
  const [fromHz, toHz] = [fitted[0]?.nominalHz, fitted.at(-1)?.nominalHz];
  return {
    target: {
      id: target.id,
      source: target.source,
      advisory: isAdvisoryTarget(target),
      offsetDb,
      fitHz: fromHz === undefined || toHz === undefined ? [...RESPONSE_REFERENCE_HZ] : [fromHz, toHz],
      ...withinLimits(bands),
      bands,
    },
    reason,
  };
}

function inFitRange(nominalHz: number): boolean {
  return nominalHz >= RESPONSE_REFERENCE_HZ[0] && nominalHz <= RESPONSE_REFERENCE_HZ[1];
}

/** Share of the bands with a limit that keep to it, and their RMS deviation. */
function withinLimits(bands: TargetResult["bands"]): Pick<TargetResult, "withinPercent" | "rmsDb"> {
  const judged = bands.filter((band) => band.deviationDb !== null && (band.lowerDb !== null || band.upperDb !== null));
  if (judged.length === 0) return { withinPercent: null, rmsDb: null };
  const within = judged.filter((band) => bandExcessDb(band)! <= 0);
  return {
    withinPercent: (100 * within.length) / judged.length,
    rmsDb: Math.sqrt(mean(judged.map(({ deviationDb }) => deviationDb! ** 2))),
  };
}

/**
 * How far a band lies beyond the nearer of its limits.
 *
 * @returns dB, above 0 outside, below 0 the room that is left; null without a limit or without a deviation
 */
export function bandExcessDb({
  deviationDb,
  lowerDb,
  upperDb,
}: Pick<TargetResult["bands"][number], "deviationDb" | "lowerDb" | "upperDb">): number | null {
  if (deviationDb === null || (lowerDb === null && upperDb === null)) return null;
  return Math.max(
    lowerDb === null ? Number.NEGATIVE_INFINITY : lowerDb - deviationDb,
    upperDb === null ? Number.NEGATIVE_INFINITY : deviationDb - upperDb,
  );
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** Standard uncertainty of a mean of independent values; null where one is not known. */
function meanUncertainty(uncertainties: readonly (number | null)[]): number | null {
  if (uncertainties.length === 0 || uncertainties.includes(null)) return null;
  return Math.hypot(...uncertainties.map((value) => value!)) / uncertainties.length;
}
