import { compressesAtOnePlace, SAME_PLACE_S, strongest } from "./peaks.js";

/** Nearer to a sweep than this it is that sweep's own decay. */
const OTHER_APART_S = 0.5;
const HARMONICS = [2, 3, 4];

/** Peaks as sharp as a sweep's that are none of the placed ones, nor their decay, nor their harmonics. */
export function otherPeaks(
  response: Float64Array,
  placed: readonly number[],
  growthS: number | null,
  rate: number,
  { height }: { height: number },
): number[] {
  const known = [...placed];
  const others: number[] = [];
  const apart = OTHER_APART_S * rate;
  const isKnown = (n: number): boolean =>
    known.some((at) => {
      if (Math.abs(n - at) < apart) return true;
      const isHarmonic = (order: number): boolean =>
        Math.abs(n - at + (growthS ?? 0) * Math.log(order) * rate) < SAME_PLACE_S * rate;
      return growthS !== null && HARMONICS.some(isHarmonic);
    });
  for (let n = 0; n < response.length; n++) {
    if (!(Math.abs(response[n]!) > height) || isKnown(n)) continue;
    const at = strongest(response, n, n + apart);
    // A decay that goes on, or a sound of another kind, is left alone once.
    known.push(at);
    if (!placed.some((one) => Math.abs(one - at) < apart) && compressesAtOnePlace(response, at, rate)) others.push(at);
  }
  return others;
}
