import type { RingMap } from "../../model.js";
import { bandDecay } from "../decay/band-decay.js";
import { splitSpectra } from "../decay/split-spectra.js";
import type { LowResponse } from "./low-response.js";
import { MODE_RANGE_HZ } from "./sub-band.js";

/** Columns of the map, and the width of the filter through which each is seen, in parts of an octave. */
const COLUMNS_PER_OCTAVE = 12;
const FILTER_OCTAVES = 1 / 6;
const FALLS_DB = [10, 20, 30, 40];

/**
 * Tells for each low frequency how long its sound takes to fall by 10, 20, 30 and 40 dB.
 *
 * The filters run backwards in time, so their own ringing does not lengthen a decay; energies are integrated backwards, so a
 * fall is for good.
 *
 * @param responses - of one place, such as the sides of a pair: the slowest counts
 * @returns times in s; null where each fall ends in noise
 */
export function ringMap(responses: readonly LowResponse[]): Omit<RingMap, "monitor"> {
  const [fromHz, toHz] = MODE_RANGE_HZ;
  const columns = Math.floor(COLUMNS_PER_OCTAVE * Math.log2(toHz / fromHz)) + 1;
  const frequencyHz = Array.from({ length: columns }, (_, k) => fromHz * 2 ** (k / COLUMNS_PER_OCTAVE));
  const spectra = responses.flatMap((response) => splitSpectra({ ...response, arrivalSample: 0 }, []) ?? []);
  const decays = frequencyHz.map((exactHz) => {
    const bandwidthHz = exactHz * (2 ** (FILTER_OCTAVES / 2) - 2 ** (-FILTER_OCTAVES / 2));
    return spectra.map((one) => bandDecay(one, { exactHz, bandwidthHz }));
  });
  return {
    frequencyHz,
    falls: FALLS_DB.map((byDb) => ({
      byDb,
      timeS: decays.map((own) => {
        const times = own.flatMap((decay) => (decay && fallTime(decay.curve, byDb, decay.stepS)) ?? []);
        // Where one side ends in noise first, the slower of the two is not known.
        return times.length === 0 || times.length < own.length ? null : Math.max(...times);
      }),
    })),
  };
}

/** When a curve that begins at 0 dB and never rises has fallen so far, between its steps on a straight line. */
function fallTime(curve: Float64Array, byDb: number, stepS: number): number | null {
  const below = curve.findIndex((levelDb) => levelDb <= -byDb);
  if (below < 1) return null;
  const [before, after] = [curve[below - 1]!, curve[below]!];
  // The curve's very end, where nothing is left to integrate, is no fall that was heard.
  if (!Number.isFinite(after)) return null;
  return (below - (after + byDb) / (after - before)) * stepS;
}
