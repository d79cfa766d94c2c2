/**
 * Gives the windowed sinc by which a signal is read between its samples.
 *
 * @param distance - from the sample to the place read, in samples
 * @param reach - half the window's length in samples; beyond it the result is 0
 * @param shape - of the Kaiser window; 0.1102 (A - 8.7) for errors A dB down, A above 50
 * @returns 1 at distance 0, 0 at every other whole distance
 * @remarks Source: J. F. Kaiser, IEEE Int. Symp. Circuits and Systems (1974). From memory. With errors A dB down the
 * reading is true up to 0.5 - (A - 8) / (2.285 * 2 pi * 4 reach) of the sample rate.
 */
export function windowedSinc(distance: number, reach: number, shape: number): number {
  const inside = 1 - (distance / reach) ** 2;
  if (distance === 0) return 1;
  if (inside <= 0) return 0;
  const angle = Math.PI * distance;
  return ((Math.sin(angle) / angle) * besselI0(shape * Math.sqrt(inside))) / besselI0(shape);
}

/**
 * Modified Bessel function of the first kind and order 0, by its power series.
 *
 * @param x - any number of a size up to 700
 * @returns 1 or more
 * @example besselI0(0) // 1
 */
export function besselI0(x: number): number {
  const quarter = (x * x) / 4;
  let sum = 1;
  for (let k = 1, term = 1; term > sum * Number.EPSILON; k++) {
    term *= quarter / (k * k);
    sum += term;
  }
  return sum;
}
