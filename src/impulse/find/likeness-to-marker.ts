import { decimate } from "../../dsp/decimate.js";
import { synthesiseMarker } from "../../dsp/sweep-signal.js";
import type { SweepRecipe } from "../../model.js";

export const PLACE_TOLERANCE_S = 0.03;

export interface LikenessToMarker {
  /** @param startSample - file sample */
  likenessNear(startSample: number): number;
}

/** Likeness of the recording with the marker around a place, 0..1. */
export function likenessToMarker(
  heard: Float64Array,
  marker: Pick<SweepRecipe, "sampleRate" | "levelDbfs">,
  factor: number,
): LikenessToMarker {
  const sound = decimate(synthesiseMarker(marker), factor);
  let soundEnergy = 0;
  for (const value of sound) soundEnergy += value * value;
  const reach = Math.ceil((PLACE_TOLERANCE_S * marker.sampleRate) / factor);
  return {
    likenessNear(startSample) {
      let best = 0;
      const centre = Math.round(startSample / factor);
      for (let start = centre - reach; start <= centre + reach; start++) {
        let product = 0;
        let energy = 0;
        for (let n = 0; n < sound.length; n++) {
          const value = heard[start + n] ?? 0;
          product += value * sound[n]!;
          energy += value * value;
        }
        if (energy > 0) best = Math.max(best, Math.abs(product) / Math.sqrt(energy * soundEnergy));
      }
      return best;
    },
  };
}
