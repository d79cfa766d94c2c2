import { delayBetween } from "../dsp/delay-between.js";
import { energyOf } from "../dsp/energy.js";
import { forwardReal, inverseProduct, transformSize } from "../dsp/fft.js";
import { paddedCut } from "../dsp/padded-cut.js";
import { sharedPart } from "../dsp/shared-part.js";
import { synthesiseMarker } from "../dsp/sweep-signal.js";
import type { ImpulseResponse, Signal, SweepRecipe } from "../model.js";
import type { FoundEvent } from "./event.js";
import { type NoiseDensity, noisePower } from "./noise.js";

/** How alike the two markers of a recording are, and what the sweep's response makes of a marker. */
export interface MarkerLikeness {
  /** The largest part of one that another cannot explain by a gain and a delay, dB re its energy. */
  readonly unlikeDb: number;
  /** Of the last marker over the first, dB; null where their shapes differ, so that somebody may have moved. */
  readonly gainDb: number | null;
  /** How much later than the sweep has it a marker came, the one that is farthest off, s. */
  readonly lateS: number;
}

/** Where a sweep stands in what was played, and where a pulse in its place would have arrived in the file. */
interface Placed {
  readonly atSample: number;
  readonly arrivalSample: number;
}

const BAND_HZ = [1000, 6000] as const;
/** The marker and the first reflections. */
const LENGTH_S = 0.15;
const BEFORE_S = 0.02;
/** Noise adds as much to what is not alike. */
const LEAST_SNR = 10 ** (20 / 10);
/** What moves in the room changes the shape by more; with noise of so little energy a gain is known to 0.02 dB. */
const SAME_SHAPE_DB = -25;

/**
 * Holds the two markers of a recording, and what its response makes of a marker, against each other as waves.
 *
 * To a system that stays the same all three are one sound. A delay that swings makes strangers of them, a gain that moves makes
 * one louder than the other. Nor do they move against each other, but where samples were lost between them: a clock that is read off
 * markers which lost samples have moved misplaces every note of the sweep by its share.
 *
 * @param impulse - of the sweep from the markers' loudspeaker, not corrected by a microphone's table
 * @param sweep - that it is the response of
 * @param markers - those heard
 * @param marker - how the markers were made
 * @param clockRatio - of the recorder's clock to the player's
 * @returns null when two markers do not stand out of the noise
 */
export function markerLikeness(
  { samples, sampleRate }: Signal,
  impulse: ImpulseResponse,
  sweep: Placed,
  markers: readonly FoundEvent[],
  marker: Pick<SweepRecipe, "sampleRate" | "levelDbfs">,
  noise: NoiseDensity,
  clockRatio: number,
): MarkerLikeness | null {
  const length = Math.round(LENGTH_S * sampleRate);
  const before = Math.round(BEFORE_S * sampleRate);
  const noiseEnergy = noisePower(noise, ...BAND_HZ) * length;
  const heard = markers
    .map(({ startSample, event }) => {
      const from = Math.round(startSample) - before;
      return { from, after: event.atSample - sweep.atSample, cut: paddedCut(samples, from, length) };
    })
    .filter(({ cut }) => bandEnergyOf(cut, sampleRate) > LEAST_SNR * noiseEnergy);
  const [first, last] = [heard[0], heard.at(-1)];
  if (!first || !last || heard.length < 2) return null;
  // At a rate that is higher by the clock's ratio the same marker has as many more samples.
  const played = synthesiseMarker({ ...marker, sampleRate: marker.sampleRate * clockRatio });
  const responseFrom = Math.round(impulse.arrivalSample) - before;
  const response = paddedCut(impulse.samples, responseFrom, length);
  const expected = convolved(played, response).subarray(0, length);
  const ofBoth = unlike(first.cut, last.cut, sampleRate);
  const others = heard.map(({ from, after, cut }) => {
    const { unlikeDb, delaySamples } = unlike(cut, expected, sampleRate);
    const expectedFrom = sweep.arrivalSample - impulse.arrivalSample + responseFrom + after * clockRatio;
    return { unlikeDb, lateS: (from - expectedFrom - delaySamples) / sampleRate };
  });
  return {
    unlikeDb: Math.max(ofBoth.unlikeDb, ...others.map(({ unlikeDb }) => unlikeDb)),
    gainDb: ofBoth.unlikeDb <= SAME_SHAPE_DB ? ofBoth.gainDb : null,
    lateS: others.reduce((most, { lateS }) => (Math.abs(lateS) > Math.abs(most) ? lateS : most), 0),
  };
}

/** One minus the squared correlation of two sounds at their best delay, the second's energy over the first's, and that delay. */
function unlike(
  a: Float64Array,
  b: Float64Array,
  sampleRate: number,
): { unlikeDb: number; gainDb: number; delaySamples: number } {
  const delay = delayBetween(a, b, sampleRate, BAND_HZ);
  const size = 2 * transformSize(a.length);
  const { together, energyX, energyY } = sharedPart(
    forwardReal(a, size),
    forwardReal(b, size),
    delay.samples,
    ...binsOf(size, sampleRate),
  );
  return {
    unlikeDb: 10 * Math.log10(Math.max(Number.EPSILON, 1 - together ** 2 / (energyX * energyY))),
    gainDb: 10 * Math.log10(energyY / energyX),
    delaySamples: delay.samples,
  };
}

/** Energy within the band that is compared: sum of squares. */
function bandEnergyOf(cut: Float64Array, sampleRate: number): number {
  const size = 2 * transformSize(cut.length);
  const [first, end] = binsOf(size, sampleRate);
  return (2 * energyOf(forwardReal(cut, size), 2 * first, 2 * end)) / size;
}

/** First bin of the band, and the one behind its last. */
function binsOf(size: number, sampleRate: number): [number, number] {
  return [Math.ceil((BAND_HZ[0] * size) / sampleRate), Math.floor((BAND_HZ[1] * size) / sampleRate)];
}

function convolved(a: Float64Array, b: Float64Array): Float64Array {
  const size = transformSize(a.length + b.length);
  return inverseProduct(forwardReal(a, size), forwardReal(b, size));
}
