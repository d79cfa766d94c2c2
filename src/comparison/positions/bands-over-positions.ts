import { energyMeanDb } from "../../dsp/energy-mean.js";
import type { MonitorResult } from "../../model.js";
import { bandCurve } from "../band-curve.js";
import { energyMeanUncertaintyDb } from "../../dsp/energy-mean-uncertainty.js";
import { meanAndSpread } from "./mean-and-spread.js";
import { independentPlaces, type Place } from "./places.js";

export type PositionBand = NonNullable<MonitorResult["positions"]>["bands"][number];

/**
 * Levels over positions by third octave: energy mean of the positions' pair means, and how far positions differ.
 *
 * The uncertainty in the room is that of the mean over more places like these: the mean's own, and the spread over the root
 * of the number of independent places. Places within a head's reach of one another are one place at low frequencies
 * (`independentPlaces`), and their small spread says nothing of the rest of the room: then the figure only says how well
 * the level is known within that reach.
 *
 * Few places know their spread badly: twice the figure holds 88 % with five of them, not 95 % (Student's t).
 *
 * @param places - of one monitor
 * @returns null in a band where a position has no level; the uncertainty also where one has none
 * @remarks Source: GUM (JCGM 100:2008) 4.2.3 for the mean of repeated observations, from memory, high confidence. The spread is
 *   one of decibels, the mean one of energy; for a spread of a few dB the difference is of second order.
 */
export function bandsOverPositions(places: readonly Place[]): PositionBand[] {
  const curves = places.map(({ channels }) => bandCurve(channels));
  const positions = places.map(({ position }) => position);
  const [first] = curves;
  return (first?.nominalHz ?? []).map((nominalHz, k) => {
    const of = (key: "levelDb" | "uncertaintyDb"): (number | null)[] =>
      curves.map((curve) => curve[key][curve.nominalHz.indexOf(nominalHz)] ?? null);
    const levels = of("levelDb");
    const levelDb = energyMeanDb(levels);
    const spread = levelDb === null ? null : meanAndSpread(levels.filter((level) => level !== null));
    const own = energyMeanUncertaintyDb(levels, of("uncertaintyDb"), "independent");
    const count = independentPlaces(positions, first!.exactHz[k]!);
    return {
      nominalHz,
      levelDb,
      spreadDb: spread && spread.spread,
      roomUncertaintyDb: spread && own !== null ? Math.hypot(own, spread.spread / Math.sqrt(count)) : null,
    };
  });
}
