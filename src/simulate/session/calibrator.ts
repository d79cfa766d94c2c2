import { addNoise } from "../recording/add-noise.js";
import type { Scenario } from "../scenario.js";

/** Where calibrators sound. */
const TONE_HZ = 1000;
const FADE_S = 0.05;
/** Far from the seeds of the recordings. */
const SEED_APART = 10_000;

export const CALIBRATOR_FILE = "calibrator.wav";

/** Records the tone of the scenario's calibrator, with the recorder's own noise; null without one. */
export function recordCalibrator(
  { recorder, seed }: Scenario,
  sampleRate: number,
): { file: string; samples: Float64Array } | null {
  const { calibrator, noise } = recorder;
  if (!calibrator) return null;
  const { durationS, peakDbfs } = calibrator;
  const amplitude = 10 ** (peakDbfs / 20);
  const samples = Float64Array.from({ length: Math.round(durationS * sampleRate) }, (_, n) => {
    const edgeS = Math.min(n / sampleRate, durationS - n / sampleRate, FADE_S);
    const rise = 0.5 - 0.5 * Math.cos((Math.PI * edgeS) / FADE_S);
    return amplitude * rise * Math.sin((2 * Math.PI * TONE_HZ * n) / sampleRate);
  });
  // The calibrator shuts the room out; what the recorder makes itself stays.
  const own = noise.whiteDbRms === undefined ? {} : { whiteDbRms: noise.whiteDbRms };
  addNoise(samples, sampleRate, own, seed + SEED_APART, 0);
  return { file: CALIBRATOR_FILE, samples };
}
