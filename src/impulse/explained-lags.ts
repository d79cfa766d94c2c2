import { cutLags, type Deconvolved } from "./deconvolve.js";
import { harmonicAdvanceS } from "./harmonics.js";

/** A stretch of a deconvolved response, in lags, with the fade at both of its ends. */
export interface LagWindow {
  readonly from: number;
  readonly to: number;
  readonly fade: number;
}

/** A limiter's edges are heard this high. */
const HIGHEST_ORDER = 40;
/** A harmonic is there when its beginning is so much over the quietest tenth of what lies between. */
const STANDS_OUT_DB = 6;
const QUIETEST_SHARE = 0.1;
/** A response's beginning, by which its size is told. */
const ONSET_S = 0.02;
/** Long enough for a harmonic's own beginning; what of its decay stands out of the noise comes on top. */
const SHORTEST_HARMONIC_S = 0.04;
const HARMONIC_FADE_S = 0.01;
/** Ringing of the swept band before the arrival, and the fade on both sides. */
const BEFORE_S = 0.05;
const RISE_S = 0.25;

/**
 * Says which lags of a deconvolved recording are the response and its harmonics, and which are something else.
 *
 * @param afterSamples - the response has sunk into the noise so long after the arrival
 * @returns the linear response's window first
 */
export function explainedLags(
  { circular, clockRatio }: Deconvolved,
  growthS: number | null,
  sampleRate: number,
  arrivalLag: number,
  afterSamples: number,
): LagWindow[] {
  // Edges are faded: a response cut off while it still rings would splash over all bands.
  const rise = RISE_S * sampleRate;
  const linear = {
    from: arrivalLag - BEFORE_S * sampleRate - rise,
    to: arrivalLag + afterSamples + rise,
    fade: rise,
  };
  if (growthS === null) return [linear];
  const onset = Math.round(ONSET_S * sampleRate);
  const onsetDb = (lag: number): number => 10 * Math.log10(energyOf(circular, Math.floor(lag), onset));
  const linearDb = onsetDb(arrivalLag);
  const rangeDb = Math.max(1, linearDb - onsetDb(arrivalLag + afterSamples));
  const harmonics = Array.from({ length: HIGHEST_ORDER - 1 }, (_, n) => {
    const at = arrivalLag - harmonicAdvanceS(n + 2, growthS) * sampleRate * clockRatio;
    return { at, db: onsetDb(at), beforeDb: onsetDb(at - onset - HARMONIC_FADE_S * sampleRate) };
  });
  const between = harmonics.map(({ beforeDb }) => beforeDb).sort((a, b) => a - b);
  const quietDb = between[Math.floor(QUIETEST_SHARE * between.length)]!;
  const present = harmonics.filter(({ db }) => db > quietDb + STANDS_OUT_DB);
  return [
    linear,
    ...present.map(({ at, db }) => {
      // The room goes on with a harmonic as with everything else: it sinks into the noise by so much sooner as it is softer.
      const share = Math.max(0, 1 - (linearDb - db) / rangeDb);
      return {
        from: at - onset,
        to: at + SHORTEST_HARMONIC_S * sampleRate + share * afterSamples,
        fade: HARMONIC_FADE_S * sampleRate,
      };
    }),
  ];
}

/** Energy of a stretch of a circular response; never 0, so that it has a level. */
function energyOf(circular: Float64Array, from: number, count: number): number {
  let energy = Number.MIN_VALUE;
  for (const value of cutLags(circular, from, count)) energy += value * value;
  return energy;
}
