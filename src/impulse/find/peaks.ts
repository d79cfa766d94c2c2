import { forwardReal, inverseReal, transformSize } from "../../dsp/fft.js";

/** The low and the high part of the right sweep compress at the same place; those of another one do not. */
const SPLIT_HZ = 300;
export const SAME_PLACE_S = 0.04;
const PART_REACH_S = 1;
/** No reflection comes so late and is twice as strong as what came before it. */
const SKIRT_S = 0.15;

/** Index of the largest magnitude. */
export function strongest(values: Float64Array, from: number, to: number): number {
  const first = Math.max(0, Math.floor(from));
  const end = Math.min(values.length, Math.ceil(to));
  let best = first;
  for (let n = first + 1; n < end; n++) if (Math.abs(values[n]!) > Math.abs(values[best]!)) best = n;
  return best;
}

/** Median magnitude, from every eleventh value. */
export function backgroundOf(response: Float64Array): number {
  const picked = Float64Array.from({ length: Math.ceil(response.length / 11) }, (_, n) => Math.abs(response[11 * n]!));
  picked.sort();
  return picked[picked.length >> 1] ?? 0;
}

/** Whether a place is but the foot of something much stronger beside it. */
export function isSkirt(response: Float64Array, at: number, rate: number): boolean {
  const reach = SKIRT_S * rate;
  const top = strongest(response, at - reach, at + reach);
  return Math.abs(response[top]!) > 2 * Math.abs(response[at]!);
}

/** Whether the parts of the response below and above the split peak together. */
export function compressesAtOnePlace(response: Float64Array, anchor: number, rate: number): boolean {
  const reach = Math.round(PART_REACH_S * rate);
  const size = transformSize(2 * reach);
  const spectrum = forwardReal(response.slice(Math.max(0, anchor - reach), anchor + reach), size);
  const split = 2 * Math.round((SPLIT_HZ * size) / rate);
  const low = spectrum.slice().fill(0, split);
  const high = spectrum.fill(0, 0, split);
  const [a, b] = [low, high].map((part) => strongest(inverseReal(part), 0, 2 * reach));
  return Math.abs(a! - b!) <= SAME_PLACE_S * rate;
}
