import type { Measure, PorousDepth } from "../../model.js";
import type { Complex } from "../../standards/absorbers/complex.js";
import { diffuseAbsorption, layerImpedance, normalAbsorption } from "../../standards/absorbers/layer-absorption.js";
import { AIR, fibrous, isTested } from "../../standards/absorbers/porous-material.js";

/** Light, ordinary and dense fibrous boards, Pa s/m²: common practice, no source. */
export const RESISTIVITIES = [5000, 10_000, 20_000] as const;
/** Half of what comes, and most of it: choices of ours. */
const SHARES = [0.5, 0.8] as const;
/** Nobody builds deeper: a choice of ours. */
const MOST_M = 2;
const STEP_M = 0.005;

/** A layer must not be deeper than this to be one for a room: a choice of ours. */
const TOO_DEEP_M = 0.5;

type Porous = Extract<Measure, { kind: "porous" }>;

/** How deep a porous layer on a rigid wall must be for sound from all sides. */
export function porous(
  frequencyHz: number,
  surfaces: readonly string[] = [],
  neededAbsorption: number | null = null,
): Porous {
  return {
    kind: "porous",
    frequencyHz,
    quarterWaveM: AIR.soundSpeedMPerS / frequencyHz / 4,
    surfaces: [...surfaces],
    neededAbsorption,
    depths: SHARES.flatMap((absorption) =>
      RESISTIVITIES.map((resistivity) => depthFor(frequencyHz, resistivity, absorption)),
    ),
  };
}

/** Whether no layer that fits into a room takes most of the sound. */
export function isTooDeep({ depths }: Porous): boolean {
  return depths.every(({ absorption, depthM }) => absorption < SHARES[1] || depthM === null || depthM > TOO_DEEP_M);
}

/**
 * The least depth at which a layer takes a share of the sound from all sides, by Delany and Bazley's model where it was measured and Miki's below.
 *
 * Deeper is not always better: a dense layer turns away what it would take. The least depth is found by steps, then halved to a
 * tenth of a millimetre.
 */
function depthFor(frequencyHz: number, resistivity: number, absorption: number): PorousDepth {
  const material = fibrous(frequencyHz, resistivity);
  const surface = (depthM: number, gapM = 0): Complex => layerImpedance(material, frequencyHz, depthM, gapM);
  const taken = (depthM: number): number => diffuseAbsorption(surface(depthM));
  const tested = isTested(frequencyHz, resistivity);
  let toM = STEP_M;
  while (toM <= MOST_M && taken(toM) < absorption) toM += STEP_M;
  if (toM > MOST_M) return { resistivity, absorption, depthM: null, withHalfAir: null, straightOn: null, tested };
  let fromM = toM - STEP_M;
  while (toM - fromM > 1e-4) {
    const middleM = (fromM + toM) / 2;
    if (taken(middleM) < absorption) fromM = middleM;
    else toM = middleM;
  }
  return {
    resistivity,
    absorption,
    depthM: toM,
    withHalfAir: diffuseAbsorption(surface(toM / 2, toM / 2)),
    straightOn: normalAbsorption(surface(toM)),
    tested,
  };
}
