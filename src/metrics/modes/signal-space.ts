import { type SymmetricEigen, symmetricEigen } from "../../dsp/linear-algebra.js";

/** Products of a signal with itself, shifted: shape `[rows][rows]`. Those of several signals add up. */
export type Products = readonly Float64Array[];

/** The space that signals span in which the same modes ring. */
export interface SignalSpace extends SymmetricEigen {
  /** How many of its dimensions stand over the noise, up to what so few rows can tell. */
  readonly order: number;
}

/** Rows of the matrix of shifted signals, as a share of their length: a third to a half are equally accurate. */
const ROWS_SHARE = 0.4;
/** The largest value of noise scatters about its mean edge, and a band's noise is not white. */
const NOISE_MARGIN = 1.3;
/** More dimensions would leave no rows to tell noise by. */
const MOST_DIMENSIONS = 0.75;

/** @param signal - with noise of variance 1 or less, shape `[n]`; equal lengths give products that can be added */
export function shiftedProducts(signal: Float64Array): Products {
  const rows = Math.max(2, Math.floor(ROWS_SHARE * signal.length));
  const columns = signal.length - rows + 1;
  const products = Array.from({ length: rows }, () => new Float64Array(rows));
  for (let apart = 0; apart < rows; apart++) {
    let sum = 0;
    for (let n = 0; n < columns; n++) sum += signal[n]! * signal[n + apart]!;
    products[0]![apart] = products[apart]![0] = sum;
    for (let row = 1; row + apart < rows; row++) {
      // Along a diagonal one sample enters and one leaves.
      const last = row + columns - 1;
      sum += signal[last]! * signal[last + apart]! - signal[row - 1]! * signal[row - 1 + apart]!;
      products[row]![row + apart] = products[row + apart]![row] = sum;
    }
  }
  return products;
}

/**
 * Takes the sum of several signals' products apart.
 *
 * @param products - at least one, all of one shape
 * @param length - of the signals
 */
export function signalSpace(products: readonly Products[], length: number): SignalSpace {
  const rows = products[0]!.length;
  const sum = products[0]!.map((row, r) => row.map((_, c) => products.reduce((total, one) => total + one[r]![c]!, 0)));
  const parts = symmetricEigen(sum);
  const edge = NOISE_MARGIN * (Math.sqrt(rows) + Math.sqrt((length - rows + 1) * products.length));
  const over = parts.values.findIndex((value) => value < edge * edge);
  const most = Math.floor(MOST_DIMENSIONS * rows);
  return { ...parts, order: over < 0 ? most : Math.min(over, most) };
}
