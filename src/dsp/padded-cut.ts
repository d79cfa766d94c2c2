/**
 * Cuts a stretch out of a signal, with silence where the signal does not reach.
 *
 * @param start - index of the first sample; may be negative
 * @param length - samples wanted
 * @returns shape `[length]`
 */
export function paddedCut(samples: Float32Array | Float64Array, start: number, length: number): Float64Array {
  const cut = new Float64Array(length);
  const from = Math.max(0, start);
  const to = Math.min(samples.length, start + length);
  if (to > from) cut.set(samples.subarray(from, to), from - start);
  return cut;
}
