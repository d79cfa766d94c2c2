/** What two sounds have in common over a range of bins, the second moved by a delay. */
export interface SharedPart {
  /** Real part of the cross spectrum's sum. */
  readonly together: number;
  /** Sums of squared magnitudes. */
  readonly energyX: number;
  readonly energyY: number;
}

/**
 * Adds up what two sounds share.
 *
 * @param x - half spectrum, shape `[size + 2]`
 * @param y - likewise
 * @param delaySamples - by which the second comes later
 * @param first - bin
 * @param end - bin behind the last one
 */
export function sharedPart(
  x: Float64Array,
  y: Float64Array,
  delaySamples: number,
  first: number,
  end: number,
): SharedPart {
  const turn = (2 * Math.PI * delaySamples) / (x.length - 2);
  let together = 0;
  let energyX = 0;
  let energyY = 0;
  for (let k = first; k < end; k++) {
    const xr = x[2 * k]!;
    const xi = x[2 * k + 1]!;
    const yr = y[2 * k]!;
    const yi = y[2 * k + 1]!;
    together += (xr * yr + xi * yi) * Math.cos(turn * k) - (xr * yi - xi * yr) * Math.sin(turn * k);
    energyX += xr * xr + xi * xi;
    energyY += yr * yr + yi * yi;
  }
  return { together, energyX, energyY };
}
