import { decimate } from "../dsp/decimate.js";
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
/**
 * Noise of equal density rises with frequency in what was deconvolved, and would hide the harmonics of the bass: the lower
 * eighth and thirty-second of the band are looked at by themselves as well.
 */
const LOWERED_BY = [8, 4] as const;
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
  const onset = ONSET_S * sampleRate;
  const views = viewsOf(circular);
  const harmonics = Array.from({ length: HIGHEST_ORDER - 1 }, (_, n) => {
    const at = arrivalLag - harmonicAdvanceS(n + 2, growthS) * sampleRate * clockRatio;
    return { at, beforeAt: at - onset - HARMONIC_FADE_S * sampleRate };
  });
  const shares = views.map((view) => {
    const onsetDb = (lag: number): number => onsetLevel(view, lag, onset);
    const linearDb = onsetDb(arrivalLag);
    const rangeDb = Math.max(1, linearDb - onsetDb(arrivalLag + afterSamples));
    const between = harmonics.map(({ beforeAt }) => onsetDb(beforeAt)).sort((a, b) => a - b);
    const quietDb = between[Math.floor(QUIETEST_SHARE * between.length)]!;
    // The room goes on with a harmonic as with everything else: it sinks into the noise by so much sooner as it is softer.
    return harmonics.map(({ at }) => {
      const db = onsetDb(at);
      return db > quietDb + STANDS_OUT_DB ? Math.max(0, 1 - (linearDb - db) / rangeDb) : null;
    });
  });
  return [
    linear,
    ...harmonics.flatMap(({ at }, n): LagWindow[] => {
      const seen = shares.flatMap((ofView) => ofView[n] ?? []);
      if (seen.length === 0) return [];
      const longest = Math.max(...seen) * afterSamples;
      return [
        { from: at - onset, to: at + SHORTEST_HARMONIC_S * sampleRate + longest, fade: HARMONIC_FADE_S * sampleRate },
      ];
    }),
  ];
}

/** A deconvolved response at its own rate, or its lower part at a lower one. */
interface View {
  readonly circular: Float64Array;
  readonly factor: number;
}

function viewsOf(circular: Float64Array): View[] {
  const views: View[] = [{ circular, factor: 1 }];
  for (const by of LOWERED_BY) {
    const last = views.at(-1)!;
    views.push({ circular: decimate(last.circular, by), factor: last.factor * by });
  }
  return views;
}

/** Level of what begins at a lag of the whole response, dB. */
function onsetLevel({ circular, factor }: View, lag: number, onset: number): number {
  return 10 * Math.log10(energyOf(circular, Math.floor(lag / factor), Math.round(onset / factor)));
}

/** Energy of a stretch of a circular response; never 0, so that it has a level. */
function energyOf(circular: Float64Array, from: number, count: number): number {
  let energy = Number.MIN_VALUE;
  for (const value of cutLags(circular, from, count)) energy += value * value;
  return energy;
}
