import { eigenvalues, type SymmetricEigen } from "../../dsp/linear-algebra.js";
import type { Pole } from "./pole.js";
import type { SubBand } from "./sub-band.js";

/** What is gone after one sample tells nothing. */
const LEAST_LEFT = 1e-3;

/**
 * Finds the damped oscillations that span a space: what one step of time makes of it.
 *
 * @param order - dimensions taken, two for each oscillation
 * @returns those that decay, in no order
 * @remarks Source: R. Roy, T. Kailath, IEEE Trans. Acoust. Speech Signal Process. 37 (1989), ESPRIT, solved by least squares;
 *   for damped oscillations the same as the matrix pencil of Y. Hua, T. K. Sarkar, ibid. 38 (1990). From memory.
 */
export function findPoles({ vectors }: SymmetricEigen, order: number, band: SubBand): Pole[] {
  const rows = vectors[0]?.length ?? 0;
  const used = vectors.slice(0, Math.min(order, rows - 1));
  const ends = used.map((vector) => vector[rows - 1]!);
  // Without their last row the vectors have the products I - e e', whose inverse is I + e e' / (1 - e'e).
  const left = 1 - ends.reduce((sum, end) => sum + end * end, 0);
  if (used.length < 2 || left < 1e-9) return [];
  const shifted = used.map((a) => Float64Array.from(used, (b) => shiftedProduct(a, b)));
  const along = used.map((_, column) => ends.reduce((sum, end, row) => sum + end * shifted[row]![column]!, 0));
  const step = shifted.map((row, i) => row.map((value, j) => value + (ends[i]! * along[j]!) / left));
  return eigenvalues(step).flatMap(([re, im]) => {
    const size = Math.hypot(re, im);
    if (!(im > 0) || size >= 1 || size < LEAST_LEFT) return [];
    return [
      {
        frequencyHz: band.zeroHz + (Math.atan2(im, re) * band.sampleRate) / (2 * Math.PI),
        dampingPerS: -Math.log(size) * band.sampleRate,
      },
    ];
  });
}

function shiftedProduct(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let n = 0; n + 1 < a.length; n++) sum += a[n]! * b[n + 1]!;
  return sum;
}
