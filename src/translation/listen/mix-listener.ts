import { loudnessMeter } from "../programme-loudness.js";
import { truePeakMeter } from "../true-peak.js";
import type { FrameStream } from "./frame-stream.js";
import { type BandPower, mixSpectrum } from "./mix-spectrum.js";

/** What is known of a mix after one hearing. */
export interface HeardMix {
  readonly loudnessLufs: number | null;
  readonly truePeakDbtp: number | null;
  readonly bands: readonly BandPower[];
  /** The stretch with the most energy, of the length asked for. */
  readonly loudestFromS: number;
}

export interface MixListener extends FrameStream {
  result(): HeardMix;
}

/** Energies are kept in steps of this length. */
const STEP_S = 0.5;

/** @param stretchS - length of the loudest stretch that is looked for */
export function mixListener(sampleRate: number, stretchS: number): MixListener {
  const spectrum = mixSpectrum(sampleRate);
  const loudness = loudnessMeter(sampleRate, [1, 1]);
  const peak = truePeakMeter(2);
  const stepSamples = Math.round(STEP_S * sampleRate);
  const energies: number[] = [];
  let samples = 0;
  return {
    push(left, right) {
      spectrum.push(left, right);
      loudness.push([left, right]);
      peak.push([left, right]);
      for (let n = 0; n < left.length; n++) {
        const step = Math.floor((samples + n) / stepSamples);
        energies[step] = (energies[step] ?? 0) + left[n]! ** 2 + right[n]! ** 2;
      }
      samples += left.length;
    },
    result: () => ({
      loudnessLufs: loudness.result().integrated,
      truePeakDbtp: decibels(peak.result()),
      bands: spectrum.bands(),
      loudestFromS: STEP_S * loudestRun(energies, Math.round(stretchS / STEP_S)),
    }),
  };
}

/** @returns level of a linear amplitude, dB; null for silence */
export function decibels(amplitude: number): number | null {
  return amplitude > 0 ? 20 * Math.log10(amplitude) : null;
}

/** Index of the first of so many neighbours with the greatest sum. */
function loudestRun(energies: readonly number[], count: number): number {
  let sum = 0;
  let most = -1;
  let at = 0;
  for (let n = 0; n < energies.length; n++) {
    sum += energies[n]!;
    if (n >= count) sum -= energies[n - count]!;
    if (n + 1 < count || sum <= most) continue;
    most = sum;
    at = n + 1 - count;
  }
  return at;
}
