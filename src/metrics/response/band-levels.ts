import { fractionalOctaveEdges, type LogPower } from "../../dsp/log-power.js";
import { noiseAt } from "../../dsp/noise-at.js";
import type { ImpulseResponse, Response } from "../../model.js";

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

/**
 * Standard uncertainty of a band's level at this position, from that of the curve inside the band.
 *
 * What a band holds is taken to be wrong in one direction: the power-weighted mean of the curve's uncertainty, which noise
 * alone would make smaller.
 *
 * @returns dB; null where the curve's is not known anywhere in the band
 */
export function bandUncertainty(
  { frequencyHz, levelDb, uncertaintyDb }: Response,
  band: { exactHz: number; fraction: 1 | 3 },
): number | null {
  const [fromHz, toHz] = fractionalOctaveEdges(band.exactHz, band.fraction);
  let sum = 0;
  let powers = 0;
  for (const [k, hz] of frequencyHz.entries()) {
    const level = levelDb[k];
    const uncertainty = uncertaintyDb[k];
    if (hz < fromHz || hz > toHz || level == null || uncertainty == null) continue;
    const power = 10 ** (level / 10);
    sum += power * uncertainty;
    powers += power;
  }
  return powers > 0 ? sum / powers : null;
}
