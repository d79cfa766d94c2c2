import { decimate } from "../../dsp/decimate.js";
import { energyOf } from "../../dsp/energy.js";
import { synthesiseMarker } from "../../dsp/sweep-signal.js";
import type { SweepRecipe } from "../../model.js";

export const PLACE_TOLERANCE_S = 0.03;

export interface LikenessToMarker {
  /**
   * @param startSample - file sample
   * @param reachS - so far to either side
   */
  likenessNear(startSample: number, reachS?: number): number;
}

/** Likeness of the recording with the marker around a place, 0..1. */
export function likenessToMarker(
  heard: Float64Array,
  marker: Pick<SweepRecipe, "sampleRate" | "levelDbfs">,
  factor: number,
): LikenessToMarker {
  const sound = decimate(synthesiseMarker(marker), factor);
  const soundEnergy = energyOf(sound);
  return {
    likenessNear(startSample, reachS = PLACE_TOLERANCE_S) {
      let best = 0;
      const reach = Math.ceil((reachS * marker.sampleRate) / factor);
      const centre = Math.round(startSample / factor);
      for (let start = centre - reach; start <= centre + reach; start++) {
        const from = Math.max(0, start);
        const to = Math.min(heard.length, start + sound.length);
        const energy = energyOf(heard, from, to);
        const likeness = Math.abs(productOf(heard, sound, start, from, to)) / Math.sqrt(energy * soundEnergy);
        if (energy > 0) best = Math.max(best, likeness);
      }
      return best;
    },
  };
}

function productOf(heard: Float64Array, sound: Float64Array, start: number, from: number, to: number): number {
  let product = 0;
  for (let n = from; n < to; n++) product += heard[n]! * sound[n - start]!;
  return product;
}
