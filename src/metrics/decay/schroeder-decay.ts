/**
 * Computes the energy decay curve by backward integration.
 *
 * Value `n` is the energy still to arrive from step `n` on, relative to the total: a room that loses 60 dB in T seconds
 * gives a line that falls along -60 t / T.
 *
 * @param energy - energy in each time step, shape `[n]`; noise may have been subtracted
 * @param tailEnergy - energy after the last step, 0 or more
 * @returns dB re total energy, shape `[n]`; starts at 0 and never rises unless an energy is negative; -Infinity where nothing
 *   is left
 * @throws {RangeError} if the total is not above zero
 * @remarks Source: M. R. Schroeder, J. Acoust. Soc. Am. 37 (1965). Linear time.
 * @example schroederDecay([1, 0, 0]) // [0, -Infinity, -Infinity]
 */
export function schroederDecay(energy: ArrayLike<number>, tailEnergy = 0): Float64Array {
  const curve = new Float64Array(energy.length);
  let left = tailEnergy;
  for (let n = energy.length - 1; n >= 0; n--) {
    left += energy[n]!;
    curve[n] = left;
  }
  if (!(left > 0)) throw new RangeError(`the total energy ${left} must be above zero`);
  for (let n = 0; n < curve.length; n++) {
    curve[n] = curve[n]! > 0 ? 10 * Math.log10(curve[n]! / left) : Number.NEGATIVE_INFINITY;
  }
  return curve;
}
