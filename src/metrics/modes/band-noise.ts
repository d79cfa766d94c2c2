import { type LowResponse, noiseDensity } from "./low-response.js";
import { bandLength, bandSignal, type SubBand } from "./sub-band.js";

/** Without a known noise it is read off the end of the response. */
const END_SHARE = 0.15;

/**
 * Noise of a band, as the variance of white noise that is everywhere as dense as it is at its densest.
 *
 * Where the recording's noise is not known, what the response ends in is taken for it, which may still be a decay: then less
 * is found, and nothing is invented.
 */
export function bandNoise(response: LowResponse, band: SubBand): number {
  const [from, to] = band.coreHz;
  const densities = [from, (from + to) / 2, to].map((hz) => noiseDensity(response, hz));
  if (densities.every((density) => density !== null)) return band.sampleRate * Math.max(...densities);
  const count = bandLength(band, response.samples.length);
  const end = Math.max(1, Math.floor(END_SHARE * count));
  const signal = bandSignal(response.samples, band, Math.max(0, count - end) * band.step, Math.min(end, count));
  // The filter lets through about half of what the band's sample rate holds.
  return 2 * meanSquare(signal);
}

export function meanSquare(signal: Float64Array): number {
  let sum = 0;
  for (const value of signal) sum += value * value;
  return sum / Math.max(1, signal.length);
}
