import { forwardReal, transformSize } from "../dsp/fft.js";
import { fractionalOctaveEdges, powerOf } from "../dsp/log-power.js";
import { fallingFit } from "../dsp/monotone-fit.js";
import { synthesiseMarker } from "../dsp/sweep-signal.js";
import type { ImpulseResponse, Signal, SweepRecipe } from "../model.js";
import type { FoundEvent } from "./event.js";
import { type NoiseDensity, noisePower } from "./noise.js";

/** Third octaves well inside the marker's own range. */
const BANDS_HZ = Array.from({ length: 11 }, (_, n) => 1000 * 10 ** ((n - 2) / 10));
/** So much is compared: the marker and what the room makes of it, up to the sweep. */
const COMPARED_S = 0.5;
const BEFORE_S = 0.02;
/** The noise is subtracted; where it is nearer than this, what is left is not sure to a tenth of a dB. */
const LEAST_SNR = 10 ** (20 / 10);
const LEAST_BANDS = 6;
/** Both markers must tell the same, or something moved: cosine between what they tell. */
const LEAST_LIKENESS = 0.8;
/**
 * What follows the level changes steadily along the sweep: over its deviation from the nearest falling or rising course the mean
 * is 6 and more. Somebody who came nearer for the markers, or went, adds reflections that differ from band to band: 3.4 at most
 * of 6000 places from 0.25 to 2.2 m around the microphone. Both simulated.
 */
const LEAST_STEADINESS = 5;
/** So large a mean no moved reflection has, however steady: 1 dB at most of the same places. */
const LARGE_DB = 1.5;

/**
 * Compares what a loudspeaker does to a short marker with what it does to the sweep.
 *
 * To a system that stays the same both are one response. A compressor, a leveller, or what takes a sound that lasts for
 * noise, treats a tenth of a second and ten seconds differently. That both markers tell the same, and that bands tell alike, guards
 * against a person who moved.
 *
 * @param impulse - of the sweep from the markers' loudspeaker, not corrected by a microphone's table
 * @param marker - how the markers were made
 * @returns mean over third octaves of marker over sweep, dB; 0 when bands differ as reflections do; null when two markers do not
 *   stand out of the noise, or contradict each other
 */
export function markerAgreement(
  { samples, sampleRate }: Signal,
  impulse: ImpulseResponse,
  markers: readonly FoundEvent[],
  marker: Pick<SweepRecipe, "sampleRate" | "levelDbfs">,
  noise: NoiseDensity,
): number | null {
  const length = Math.round(COMPARED_S * sampleRate);
  const before = Math.round(BEFORE_S * sampleRate);
  const size = transformSize(length);
  const start = Math.max(0, Math.round(impulse.arrivalSample) - before);
  const response = powerOf(forwardReal(impulse.samples.subarray(start, start + length), size));
  const played = powerOf(forwardReal(synthesiseMarker(marker), size));
  const edges = BANDS_HZ.map((bandHz) => fractionalOctaveEdges(bandHz, 3));
  const told = markers.flatMap(({ startSample }) => {
    const from = Math.round(startSample) - before;
    if (from < 0 || from + length > samples.length) return [];
    const heard = powerOf(forwardReal(samples.subarray(from, from + length), size));
    return [
      edges.map(([lowHz, highHz]) => {
        let found = 0;
        let expected = 0;
        for (let k = Math.round((lowHz * size) / sampleRate); k < Math.round((highHz * size) / sampleRate); k++) {
          found += heard[k]!;
          expected += response[k]! * played[k]!;
        }
        const noiseEnergy = (noisePower(noise, lowHz, highHz) * length * size) / 2;
        return found > LEAST_SNR * noiseEnergy ? 10 * Math.log10((found - noiseEnergy) / expected) : Number.NaN;
      }),
    ];
  });
  const [first, last] = [told[0], told.at(-1)];
  if (!first || !last || told.length < 2) return null;
  const pairs = first.flatMap((a, n) => (Number.isNaN(a * last[n]!) ? [] : [[a, last[n]!] as const]));
  if (pairs.length < LEAST_BANDS) return null;
  const sum = (of: (a: number, b: number) => number): number => pairs.reduce((total, [a, b]) => total + of(a, b), 0);
  const likeness = sum((a, b) => a * b) / Math.sqrt(sum((a) => a * a) * sum((_, b) => b * b));
  return likeness < LEAST_LIKENESS ? null : steadyMean(pairs.map(([a, b]) => 0.5 * (a + b)));
}

/** The mean of values that keep to a steady course; 0 for others. */
function steadyMean(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  if (Math.abs(mean) >= LARGE_DB) return mean;
  const rising = fallingFit(values.map((value) => -value)).map((value) => -value);
  const deviation = Math.min(...[fallingFit(values), rising].map((course) => rootMeanSquareOf(values, course)));
  return Math.abs(mean) >= LEAST_STEADINESS * deviation ? mean : 0;
}

function rootMeanSquareOf(values: readonly number[], course: readonly number[]): number {
  return Math.sqrt(values.reduce((sum, value, n) => sum + (value - course[n]!) ** 2, 0) / values.length);
}
