import type { HarmonicResponse } from "../model.js";
import { cutLags, type Deconvolved } from "./deconvolve.js";
import type { Excitation } from "./excitation.js";

const ORDERS = [2, 3, 4, 5] as const;
const LONGEST_S = 0.4;

/** Lag of the n-th harmonic's response before the linear one, seconds. */
export function harmonicAdvanceS(order: number, growthS: number): number {
  return growthS * Math.log(order);
}

/**
 * Splits off the harmonic responses, which arrive L ln(n) before the linear one.
 *
 * Each window begins a tenth of the way to the next higher harmonic and ends before the next lower one, so what a room
 * holds longer than that is not counted.
 *
 * @returns orders 2 to 5; empty when only the played sound is known
 * @remarks Source: A. Farina, AES 108 (2000).
 */
export function splitHarmonics(
  deconvolved: Deconvolved,
  excitation: Excitation,
  arrivalLag: number,
): HarmonicResponse[] {
  const { growthS, sampleRate } = excitation;
  if (growthS === null) return [];
  return ORDERS.map((order) => {
    const gapBeforeS = growthS * Math.log((order + 1) / order);
    const gapAfterS = growthS * Math.log(order / (order - 1));
    const beforeS = 0.1 * gapBeforeS;
    const before = Math.floor(beforeS * sampleRate);
    const after = Math.floor(Math.min(LONGEST_S, 0.8 * gapAfterS) * sampleRate);
    const arrival = arrivalLag - harmonicAdvanceS(order, growthS) * sampleRate * deconvolved.clockRatio;
    const start = Math.floor(arrival) - before;
    return {
      order,
      samples: cutLags(deconvolved.circular, start, before + after),
      sampleRate,
      arrivalSample: arrival - start,
      gapS: gapBeforeS,
    };
  });
}
