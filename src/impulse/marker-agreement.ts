import { forwardReal, transformSize } from "../dsp/fft.js";
import { fractionalOctaveEdges } from "../dsp/log-power.js";
import { synthesiseMarker } from "../dsp/sweep-signal.js";
import type { ImpulseResponse, Signal, SweepRecipe } from "../model.js";
import type { FoundEvent } from "./find.js";
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
 * Compares what a loudspeaker does to a short marker with what it does to the sweep.
 *
 * To a system that stays the same both are one response. A compressor, a leveller, or what takes a sound that lasts for
 * noise, treats a tenth of a second and ten seconds differently. Two markers guard against a person who moved.
 *
 * @param impulse - of the sweep from the markers' loudspeaker, not corrected by a microphone's table
 * @param marker - how the markers were made
 * @returns root mean square over third octaves of marker over sweep, dB; null when two markers do not stand out of the noise, or
 *   contradict each other
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
  const response = forwardReal(impulse.samples.subarray(start, start + length), size);
  const played = forwardReal(synthesiseMarker(marker), size);
  const edges = BANDS_HZ.map((bandHz) => fractionalOctaveEdges(bandHz, 3));
  const power = (spectrum: Float64Array, k: number): number => spectrum[2 * k]! ** 2 + spectrum[2 * k + 1]! ** 2;
  const told = markers.flatMap(({ startSample }) => {
    const from = Math.round(startSample) - before;
    if (from < 0 || from + length > samples.length) return [];
    const heard = forwardReal(samples.subarray(from, from + length), size);
    return [
      edges.map(([lowHz, highHz]) => {
        let found = 0;
        let expected = 0;
        for (let k = Math.round((lowHz * size) / sampleRate); k < Math.round((highHz * size) / sampleRate); k++) {
          found += power(heard, k);
          expected += power(response, k) * power(played, k);
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
  return likeness < LEAST_LIKENESS ? null : Math.sqrt(sum((a, b) => (0.5 * (a + b)) ** 2) / pairs.length);
}
