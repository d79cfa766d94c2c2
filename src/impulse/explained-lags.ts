import { decimate } from "../dsp/decimate.js";
import { energyOf } from "../dsp/energy.js";
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
 * Noise of equal density rises with frequency in what was deconvolved, and would hide the harmonics of the bass: two lower parts
 * of the band, up to an eighth and a thirty-second, are looked at by themselves.
 */
const LOWERED_BY = 8;
const LOWEST_BY = 32;
const PARTS = ["whole", "middle", "lowest"] as const;
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
  const harmonics = Array.from({ length: HIGHEST_ORDER - 1 }, (_, n) => {
    const at = arrivalLag - harmonicAdvanceS(n + 2, growthS) * sampleRate * clockRatio;
    return { at, beforeAt: at - onset - HARMONIC_FADE_S * sampleRate };
  });
  const levelsDb = levelsOf(circular, onset);
  const arrivalDb = levelsDb(arrivalLag);
  const endDb = levelsDb(arrivalLag + afterSamples);
  const beforeDb = harmonics.map(({ beforeAt }) => levelsDb(beforeAt));
  const atDb = harmonics.map(({ at }) => levelsDb(at));
  const [whole, ...lower] = PARTS.map((part) => {
    const linearDb = arrivalDb[part];
    const rangeDb = Math.max(1, linearDb - endDb[part]);
    const between = beforeDb.map((levels) => levels[part]).sort((a, b) => a - b);
    const quietDb = between[Math.floor(QUIETEST_SHARE * between.length)]!;
    // The room goes on with a harmonic as with everything else: it sinks into the noise by so much sooner as it is softer.
    return atDb.map((levels) => {
      const db = levels[part];
      return db > quietDb + STANDS_OUT_DB ? Math.max(0, 1 - (linearDb - db) / rangeDb) : null;
    });
  });
  return [
    linear,
    ...harmonics.flatMap(({ at }, n): LagWindow[] => {
      const share = whole?.[n] ?? null;
      // A knock has one frequency at each lag, a harmonic all of them.
      const isBelow = lower.every((shares) => shares[n] !== null);
      if (share === null && !isBelow) return [];
      const to = at + SHORTEST_HARMONIC_S * sampleRate + (share ?? 0) * afterSamples;
      return [{ from: at - onset, to, fade: HARMONIC_FADE_S * sampleRate }];
    }),
  ];
}

/** Level of what begins at a lag, dB, by part of the band. */
function levelsOf(circular: Float64Array, onset: number): (lag: number) => Record<(typeof PARTS)[number], number> {
  const loweredEnergy = (lag: number, factor: number): number => {
    // The low-pass reaches past both ends of what is looked at.
    const reach = 8 * factor;
    const lowered = decimate(cutLags(circular, Math.floor(lag) - reach, Math.round(onset) + 2 * reach), factor);
    return factor * energyOf(lowered.subarray(8, lowered.length - 8));
  };
  const level = (energy: number): number => 10 * Math.log10(Math.max(Number.MIN_VALUE, energy));
  return (lag) => {
    const lowest = loweredEnergy(lag, LOWEST_BY);
    return {
      whole: level(energyOf(cutLags(circular, Math.floor(lag), Math.round(onset)))),
      middle: level(loweredEnergy(lag, LOWERED_BY) - lowest),
      lowest: level(lowest),
    };
  };
}
