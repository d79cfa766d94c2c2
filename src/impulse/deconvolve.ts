import { fittingSize, forwardReal, inverseProduct } from "../dsp/fft.js";
import type { Signal } from "../model.js";
import type { Excitation } from "./excitation.js";

/** Everything that one sweep brought back, by lag after the sweep's own beginning. */
export interface Deconvolved {
  /** Circular: lag `n` is at index `n`, lag `-n` at `size - n`. */
  readonly circular: Float64Array;
  /** Half spectrum of the recorded segment. */
  readonly recorded: Float64Array;
  /** Where in the file lag 0 is. */
  readonly startSample: number;
  /** The part of the file that was used. */
  readonly segmentSamples: number;
  readonly clockRatio: number;
}

/**
 * Divides a recorded sweep by what was played.
 *
 * Padded so that nothing wraps into lags from `-before` to the end of the segment: whatever noise or harmonics precede
 * lie beyond. Outside the swept band nothing comes back: see `inverseOf`.
 *
 * @param recording - the whole file
 * @param startSample - where the sweep begins in it, to within a few milliseconds
 * @param endSample - end of the decay after it: the next sound, or the end of the file
 * @param beforeSamples - how far before the arrival the response is wanted
 * @remarks Source: S. Mueller, P. Massarani, J. Audio Eng. Soc. 49 (2001), linear deconvolution by spectral division.
 */
export function deconvolve(
  recording: Signal,
  excitation: Excitation,
  span: { startSample: number; endSample: number; beforeSamples: number },
  clockRatio = 1,
): Deconvolved {
  const startSample = Math.max(0, Math.round(span.startSample));
  const segment = recording.samples.subarray(startSample, Math.min(recording.samples.length, span.endSample));
  const played = excitation.samples(clockRatio);
  const size = fittingSize(Math.max(segment.length, played.length) + span.beforeSamples);
  const recorded = forwardReal(segment, size);
  const circular = inverseProduct(recorded, excitation.inverse(size, clockRatio));
  return { circular, recorded, startSample, segmentSamples: segment.length, clockRatio };
}

/** Cuts lags `from` to `from + count` out of a circular response; lags may be negative. */
export function cutLags(circular: Float64Array, from: number, count: number): Float64Array {
  const size = circular.length;
  const cut = new Float64Array(count);
  let at = ((from % size) + size) % size;
  for (let done = 0; done < count; at = 0) {
    const piece = circular.subarray(at, Math.min(size, at + count - done));
    cut.set(piece, done);
    done += piece.length;
  }
  return cut;
}
