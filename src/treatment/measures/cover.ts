import type { Measure } from "../../model.js";
import { diffuseAbsorption, layerImpedance } from "../../standards/absorbers/layer-absorption.js";
import { fibrous } from "../../standards/absorbers/porous-material.js";
import { RESISTIVITIES } from "./porous.js";

/** A rug, and one on thick felt; a blanket in two layers: choices of ours. */
const DEPTHS_M = [0.01, 0.02] as const;

/** What a cover takes that is thin enough to be walked on or to be laid over a desk. */
export function cover(
  surface: string,
  use: "floor" | "top",
  frequencyHz: number,
  neededAbsorption: number | null = null,
): Measure {
  const covers = DEPTHS_M.map((depthM) => {
    const taken = RESISTIVITIES.map((resistivity) =>
      diffuseAbsorption(layerImpedance(fibrous(frequencyHz, resistivity), frequencyHz, depthM)),
    );
    return { depthM, least: Math.min(...taken), most: Math.max(...taken) };
  });
  return { kind: "cover", surface, use, frequencyHz, neededAbsorption, covers };
}
