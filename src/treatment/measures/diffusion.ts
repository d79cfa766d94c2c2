import type { Measure } from "../../model.js";
import { AIR } from "../../standards/absorbers/porous-material.js";

/** Wells must be a quarter of the wavelength deep to scatter, and a listener three wavelengths away to hear it even; from memory. */
const DEPTH_WAVES = 1 / 4;
const DISTANCE_WAVES = 3;
/** Deeper structures are no furniture: a choice of ours. */
const MOST_M = 0.5;

/**
 * Whether a surface can be made to scatter sound from a frequency up, and from how far that may be heard.
 *
 * @param distanceM - from the surface to the listener; null where not known
 */
export function diffusion(frequencyHz: number, distanceM: number | null, surface: string | null = null): Measure {
  const waveM = AIR.soundSpeedMPerS / frequencyHz;
  const depthM = DEPTH_WAVES * waveM;
  const leastDistanceM = DISTANCE_WAVES * waveM;
  const possible = depthM > MOST_M ? false : distanceM === null ? null : distanceM >= leastDistanceM;
  return { kind: "diffusion", surface, frequencyHz, depthM, leastDistanceM, distanceM, possible };
}
