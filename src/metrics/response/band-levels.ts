import { fractionalOctaveEdges, type LogPower } from "../../dsp/log-power.js";
import { noiseAt } from "../../dsp/noise-at.js";
import type { ImpulseResponse } from "../../model.js";

/**
 * Level of a band: mean of the squared response over log frequency, so that a flat response reads the same in each.
 *
 * @param steady - steady-state power
 * @returns level and, on the same scale, what the room's noise adds to it; null where there is none
 */
export function bandLevel(
  impulse: ImpulseResponse,
  steady: LogPower,
  noiseS: number,
  band: { exactHz: number; fraction: 1 | 3 },
  levelOffsetDb: number,
): { levelDb: number | null; noiseDb: number | null } {
  const power = steady.mean(...fractionalOctaveEdges(band.exactHz, band.fraction));
  const noise = impulse.noise ? noiseAt(impulse.noise, band.exactHz) * noiseS : 0;
  const level = (value: number): number | null => (value > 0 ? 10 * Math.log10(value) + levelOffsetDb : null);
  return { levelDb: level(power), noiseDb: level(noise) };
}
