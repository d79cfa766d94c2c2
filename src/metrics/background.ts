import { fractionalOctaveEdges } from "../dsp/log-power.js";
import type { Background } from "../model.js";
import { bandEdges, THIRD_OCTAVES } from "../standards/iec61260.js";

const OCTAVES = [31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000].map((nominalHz, n) => ({
  nominalHz,
  exactHz: 1000 * 10 ** (0.3 * (n - 5)),
}));

/**
 * Background noise per octave from the silence before the sweep.
 *
 * @param meanSquare - mean square of the recorded noise between two frequencies, full scale 1
 * @param correctionDb - dB to add at a frequency: the microphone's own deviation, negative
 * @param calibrationDb - sound pressure level of a full-scale sine; null when no calibrator was recorded
 * @param weightingDb - A-weighting at a frequency
 * @param seconds - how long the silence was
 * @returns dB SPL, or dB re a full-scale sine without a calibration; octaves above half the sample rate are left out
 */
export function measureBackground(
  meanSquare: (fromHz: number, toHz: number) => number,
  sampleRate: number,
  correctionDb: (frequencyHz: number) => number,
  calibrationDb: number | null,
  weightingDb: (frequencyHz: number) => number,
  seconds: number,
): Background {
  // By third octaves: an octave is too wide for the weighting's slope, and 8 kHz is not the end of a microphone's noise.
  let weighted = 0;
  for (const band of THIRD_OCTAVES) {
    const [from, to] = bandEdges(band);
    if (to > sampleRate / 2) break;
    weighted += 2 * meanSquare(from, to) * 10 ** ((correctionDb(band.exactHz) + weightingDb(band.exactHz)) / 10);
  }
  const bands = OCTAVES.flatMap(({ nominalHz, exactHz }): Background["bands"] => {
    const [from, to] = fractionalOctaveEdges(exactHz, 1);
    if (to > sampleRate / 2) return [];
    // Twice the mean square: a full-scale sine has one half.
    const power = 2 * meanSquare(from, to) * 10 ** (correctionDb(exactHz) / 10);
    if (!(power > 0)) return [{ nominalHz, levelDb: null, uncertaintyDb: null }];
    const levelDb = 10 * Math.log10(power) + (calibrationDb ?? 0);
    // Bandwidth times duration: so many independent values were averaged.
    return [{ nominalHz, levelDb, uncertaintyDb: 10 / Math.LN10 / Math.sqrt((to - from) * seconds) }];
  });
  return {
    levelReference: calibrationDb === null ? "dbfs" : "spl",
    bands,
    aWeightedDb: weighted > 0 ? 10 * Math.log10(weighted) + (calibrationDb ?? 0) : null,
  };
}
