import { weightingA } from "../../standards/iec61672.js";
import { BANDS, type Curve } from "../bands.js";
import type { BandPower } from "./mix-spectrum.js";

/** Powers of third octaves of what comes out of a device, in the order of `BANDS`. */
export function devicePowers(bands: readonly BandPower[], mono: boolean): number[] {
  // The sum is halved, so that what both sides have in common keeps its level.
  return bands.map(({ left, right, cross }) => (mono ? (left + right + 2 * cross) / 4 : (left + right) / 2));
}

/**
 * What must be added to full-scale levels so that the mix plays at a level on a device.
 *
 * @param powers - of the mix by third octave
 * @param curveDb - of the device
 * @param levelDba - A-weighted level at the listener of what the device makes of the mix
 * @returns dB; null where the device gives nothing of the mix
 */
export function gainToLevel(powers: readonly number[], curveDb: Curve, levelDba: number): number | null {
  let power = 0;
  for (const [k, { exactHz }] of BANDS.entries()) {
    const curve = curveDb[k];
    if (curve != null) power += powers[k]! * 10 ** ((curve + weightingA(exactHz)) / 10);
  }
  return power > 0 ? levelDba - 10 * Math.log10(power) : null;
}
