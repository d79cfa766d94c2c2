import { energyMeanDb } from "../../dsp/energy-mean.js";
import type { Response } from "../../model.js";

/** What is called its surroundings: the octave around it. */
const HALF_OCTAVE = Math.SQRT2;

/**
 * How far a response stands over the octave around a range at its highest within the range.
 *
 * @param response - `levelDb` on frequencies in equal ratios
 * @param rangeHz - where a mode lies: half a bandwidth to either side
 * @returns dB re the energy mean of the octave around the range's middle; null where not all of it was measured
 */
export function standOutDb(
  { frequencyHz, levelDb }: Pick<Response, "frequencyHz" | "levelDb">,
  [fromHz, toHz]: readonly [number, number],
): number | null {
  const middle = Math.sqrt(fromHz * toHz);
  const around = within(frequencyHz, middle / HALF_OCTAVE, middle * HALF_OCTAVE).map((k) => levelDb[k] ?? null);
  const meanDb = around.includes(null) ? null : energyMeanDb(around);
  const inside = within(frequencyHz, fromHz, toHz).flatMap((k) => levelDb[k] ?? []);
  return meanDb === null || inside.length === 0 ? null : Math.max(...inside) - meanDb;
}

function within(frequencyHz: readonly number[], fromHz: number, toHz: number): number[] {
  return frequencyHz.flatMap((hz, k) => (hz >= fromHz && hz <= toHz ? [k] : []));
}
