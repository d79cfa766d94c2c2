import type { SweepRecipe } from "../model.js";
import { raisedCosine } from "./raised-cosine.js";

/** What defines one sweep; a subset of the recipe. */
export type SweepShape = Pick<
  SweepRecipe,
  "sampleRate" | "startHz" | "endHz" | "growthS" | "lengthS" | "levelDbfs" | "fadeInS" | "fadeOutS"
>;

/** Samples of one sweep event: fade-in before the instant of startHz, sweep, fade-out after endHz. */
export function sweepSampleCount(shape: SweepShape): number {
  return Math.round((shape.fadeInS + shape.fadeOutS) * shape.sampleRate) + Math.ceil(shape.lengthS * shape.sampleRate);
}

/**
 * Synthesises the exponential sweep x(t) = a sin(2 pi f1 L (exp(t/L) - 1)) with raised-cosine fades outside the band.
 *
 * Because f1 L is a whole number the phase is zero at t = 0 and the n-th harmonic is the same sweep, L ln(n) earlier,
 * without a phase of its own.
 *
 * @param shape - the recipe's sweep
 * @param clockRatio - the listener's clock over the player's: 1.0001 gives the sweep as a recorder hears it whose clock
 *   runs 100 ppm fast, so that it lasts longer; exact, nothing is interpolated
 * @returns shape `[n]`, full scale 1; sample 0 is the beginning of the fade
 * @remarks Source: A. Farina, AES 108 (2000); A. Novak et al., J. Audio Eng. Soc. 63 (2015) for the whole number of f1 L.
 */
export function synthesiseSweep(shape: SweepShape, clockRatio = 1): Float64Array {
  const { sampleRate, startHz, growthS, lengthS, fadeInS, fadeOutS } = shape;
  const amplitude = 10 ** (shape.levelDbfs / 20);
  const count = Math.floor((sweepSampleCount(shape) - 1) * clockRatio) + 1;
  const samples = new Float64Array(count);
  const cyclesPerE = startHz * growthS;
  const step = 1 / (sampleRate * clockRatio);
  for (let n = 0; n < count; n++) {
    const t = n * step - fadeInS;
    // Whole cycles are taken off before the sine: the phase reaches 2e5 radians.
    const cycles = cyclesPerE * (Math.exp(t / growthS) - 1);
    samples[n] = amplitude * Math.sin(2 * Math.PI * (cycles - Math.floor(cycles)));
  }
  for (let n = 0; n < count && n * step < fadeInS; n++) samples[n]! *= raisedCosine((n * step) / fadeInS);
  for (let n = count - 1; n >= 0 && n * step > fadeInS + lengthS; n--) {
    samples[n]! *= raisedCosine(1 - (n * step - fadeInS - lengthS) / fadeOutS);
  }
  return samples;
}

const MARKER_S = 0.1;
const MARKER_FADE_S = 0.01;
const MARKER_HZ = [500, 8000] as const;

/** Samples of one marker. */
export function markerSampleCount(sampleRate: number): number {
  return Math.round(MARKER_S * sampleRate);
}

/**
 * Synthesises the marker: a short exponential chirp, 500 Hz to 8 kHz in 0.1 s, that the same loudspeaker plays twice.
 *
 * @returns shape `[n]`, full scale 1, at the recipe's level
 */
export function synthesiseMarker(recipe: Pick<SweepRecipe, "sampleRate" | "levelDbfs">): Float64Array {
  const [fromHz, toHz] = MARKER_HZ;
  const amplitude = 10 ** (recipe.levelDbfs / 20);
  const growthS = MARKER_S / Math.log(toHz / fromHz);
  const samples = new Float64Array(markerSampleCount(recipe.sampleRate));
  for (let n = 0; n < samples.length; n++) {
    const t = n / recipe.sampleRate;
    const edgeS = Math.min(t, MARKER_S - t, MARKER_FADE_S);
    const gain = amplitude * raisedCosine(edgeS / MARKER_FADE_S);
    samples[n] = gain * Math.sin(2 * Math.PI * fromHz * growthS * (Math.exp(t / growthS) - 1));
  }
  return samples;
}
