import { energyOf } from "../dsp/energy.js";
import type { Deconvolved } from "./deconvolve.js";
import { type NoiseDensity, noisePower } from "./noise.js";

const WIDE_HZ = [20, 20_000] as const;

/**
 * Level of the recorded sweep over the noise of the silent lead, 20 Hz-20 kHz, root mean square to root mean square.
 *
 * @param sweepSamples - length of the sweep, over which its energy is spread
 * @returns dB; null when either is silent
 */
export function signalToNoise(deconvolved: Deconvolved, sweepSamples: number, noise: NoiseDensity): number | null {
  const { recorded, circular } = deconvolved;
  const size = circular.length;
  const binHz = noise.sampleRate / size;
  const last = Math.min(size / 2 - 1, Math.floor(WIDE_HZ[1] / binHz));
  const energy = energyOf(recorded, 2 * Math.ceil(WIDE_HZ[0] / binHz), 2 * (last + 1));
  const signalPower = (2 * energy) / size / sweepSamples;
  const quiet = noisePower(noise, ...WIDE_HZ);
  return quiet > 0 && signalPower > 0 ? 10 * Math.log10(signalPower / quiet) : null;
}
