import type { NoiseSpectrum } from "../model.js";

/**
 * Noise power per second of response at any frequency, by straight lines on log frequency; the ends are held.
 *
 * @param noise - on frequencies that rise by equal ratios
 */
export function noiseAt(noise: NoiseSpectrum, frequencyHz: number): number {
  const last = noise.powerPerSecond.length - 1;
  const decades = Math.log10(noise.frequencyHz[last]! / noise.frequencyHz[0]!);
  const place = (last * Math.log10(frequencyHz / noise.frequencyHz[0]!)) / decades;
  const k = Math.min(Math.max(Math.floor(place), 0), Math.max(0, last - 1));
  const share = Math.min(Math.max(place - k, 0), 1);
  const here = noise.powerPerSecond[k]!;
  return here + share * ((noise.powerPerSecond[Math.min(k + 1, last)] ?? here) - here);
}
