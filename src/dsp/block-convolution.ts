import { forwardReal, inverseProduct, transformSize } from "./fft.js";

/** How a signal of any length is cut for filters of a length. */
export interface BlockPlan {
  /** Length of the transforms. */
  readonly size: number;
  /** New samples per block. */
  readonly hop: number;
}

/** Blocks so many times as long as the filter cost least per sample. */
const BLOCK_PER_FILTER = 4;
/** Smaller blocks are all beginning and end. */
const LEAST_SIZE = 2 ** 12;

/** @param taps - length of the longest filter */
export function blockPlan(taps: number): BlockPlan {
  const size = Math.max(LEAST_SIZE, transformSize(BLOCK_PER_FILTER * taps));
  return { size, hop: size - taps + 1 };
}

/** Makes spectra of overlapping blocks from a signal that comes in pieces of one hop. */
export interface BlockSource {
  /**
   * @param samples - shape `[hop]`; a shorter last piece is taken as followed by silence
   * @returns half spectrum of the block that ends with these samples
   */
  next(samples: ArrayLike<number>): Float64Array;
}

export function blockSource({ size, hop }: BlockPlan): BlockSource {
  const block = new Float64Array(size);
  return {
    next(samples) {
      if (samples.length > hop) throw new RangeError(`a piece of ${samples.length} samples is longer than ${hop}`);
      block.copyWithin(0, hop);
      block.set(samples, size - hop);
      block.fill(0, size - hop + samples.length);
      return forwardReal(block, size);
    },
  };
}

/** The half spectrum of a filter, ready for `filterBlock`. */
export function filterSpectrum(taps: ArrayLike<number>, { size, hop }: BlockPlan): Float64Array {
  if (taps.length > size - hop + 1) throw new RangeError(`${taps.length} taps are too many for the plan`);
  return forwardReal(taps, size);
}

/**
 * Filters one block by overlap-save: what the circular convolution wraps around is thrown away.
 *
 * The pieces put together are the linear convolution of the whole signal, as long as the signal.
 *
 * @param block - half spectrum from a block source of the same plan
 * @returns shape `[hop]`: the filtered samples of the newest piece
 * @remarks Source: the overlap-save method, T. G. Stockham 1966 (from memory; a textbook method).
 */
export function filterBlock(block: Float64Array, filter: Float64Array, { size, hop }: BlockPlan): Float64Array {
  return inverseProduct(block, filter).subarray(size - hop);
}
