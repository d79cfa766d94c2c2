/** Of the filter to either side, in samples of the new rate. */
const REACH = 6;
/** So many values are made of one piece. */
const PIECE = 1024;

const known = new Map<number, Float64Array>();

/** The low-pass for a factor, kept for the next time. */
function tapsFor(factor: number): Float64Array {
  const kept = known.get(factor);
  if (kept) return kept;
  const half = REACH * factor;
  const taps = new Float64Array(2 * half + 1);
  let sum = 0;
  for (let n = -half; n <= half; n++) {
    const x = (0.9 * n) / factor;
    const sinc = n === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
    taps[n + half] = sinc * (0.5 + 0.5 * Math.cos((Math.PI * n) / (half + 1)));
    sum += taps[n + half]!;
  }
  for (let n = 0; n < taps.length; n++) taps[n]! /= sum;
  known.set(factor, taps);
  return taps;
}

/**
 * Lowers the sample rate by a whole factor after a windowed-sinc low-pass (flat to 0.35 of the new rate).
 *
 * @param samples - shape `[n]`
 * @param factor - whole, at least 1
 * @returns shape `[ceil(n / factor)]`; sample `m` stands at `m * factor`, without delay
 */
export function decimate(samples: Float32Array | Float64Array, factor: number): Float64Array {
  const taps = tapsFor(factor);
  const lowered = new Float64Array(Math.ceil(samples.length / factor));
  // Where the low-pass reaches past neither end.
  const first = Math.min(REACH, lowered.length);
  const last = Math.max(first, Math.ceil((samples.length - REACH * factor) / factor));
  for (let m = 0; m < first; m++) lowered[m] = atEdge(samples, m * factor, taps);
  // Piece by piece through one array: a long recording is not copied, and the loop sees one kind of array.
  const piece = new Float64Array((Math.min(PIECE, last - first) + 2 * REACH) * factor + 1);
  for (let m = first; m < last; m += PIECE) {
    const end = Math.min(m + PIECE, last);
    piece.set(samples.subarray((m - REACH) * factor, (end - 1 + REACH) * factor + 1));
    lowerPiece(lowered, m, end, piece, taps, factor);
  }
  for (let m = last; m < lowered.length; m++) lowered[m] = atEdge(samples, m * factor, taps);
  return lowered;
}

/** Most of the work, in a function that does nothing else: it is compiled the sooner. */
function lowerPiece(
  lowered: Float64Array,
  first: number,
  last: number,
  source: Float64Array,
  taps: Float64Array,
  factor: number,
): void {
  const half = REACH * factor;
  // Two values at a time share the taps, and neither's sum waits for the other's; the last of an odd number is made twice.
  for (let m = first; m < last; m += 2) {
    const one = (m - first) * factor + half;
    const other = m + 1 < last ? one + factor : one;
    let valueOne = source[one]! * taps[half]!;
    let valueOther = source[other]! * taps[half]!;
    for (let n = 1; n <= half; n++) {
      const tap = taps[half + n]!;
      valueOne += (source[one - n]! + source[one + n]!) * tap;
      valueOther += (source[other - n]! + source[other + n]!) * tap;
    }
    lowered[m] = valueOne;
    if (other !== one) lowered[m + 1] = valueOther;
  }
}

/** As if there were silence before and behind. */
function atEdge(source: ArrayLike<number>, middle: number, taps: Float64Array): number {
  const half = (taps.length - 1) / 2;
  const from = Math.max(-half, -middle);
  const to = Math.min(half, source.length - 1 - middle);
  let value = 0;
  for (let n = from; n <= to; n++) value += source[middle + n]! * taps[half + n]!;
  return value;
}
