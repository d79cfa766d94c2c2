import { fittingSize, forwardReal, inverseReal } from "../dsp/fft.js";
import type { Signal } from "../model.js";
import type { Excitation } from "./excitation.js";

/** Everything that one sweep brought back, by lag after the sweep's own beginning. */
export interface Deconvolved {
  /** Circular: lag `n` is at index `n`, lag `-n` at `size - n`. */
  readonly circular: Float64Array;
  /** Half spectrum of the recorded segment, kept for the residual. */
  readonly recorded: Float64Array;
  /** Where in the file lag 0 is. */
  readonly startSample: number;
  /** The part of the file that was used. */
  readonly segmentSamples: number;
  readonly clockRatio: number;
}

const THIRD_OF_AN_OCTAVE = 2 ** (1 / 3);

/**
 * Divides a recorded sweep by what was played.
 *
 * Padded so that nothing wraps into lags from `-before` to the end of the segment: whatever noise or harmonics precede
 * lie beyond. Outside the swept band the quotient is faded to nothing over a third of an octave, where the sweep's own
 * fades still carry energy: the regularisation is none inside, total outside, smooth between.
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
  const quotient = recorded.slice();
  divideInBand(quotient, excitation.spectrum(size, clockRatio), bandGain(excitation, recording.sampleRate, size));
  return { circular: inverseReal(quotient), recorded, startSample, segmentSamples: segment.length, clockRatio };
}

/** Multiplies by gain / played, bin by bin, in place. */
function divideInBand(quotient: Float64Array, played: Float64Array, gainAt: (bin: number) => number): void {
  for (let k = 0; k < quotient.length / 2; k++) {
    const gain = gainAt(k);
    const re = quotient[2 * k]!;
    const im = quotient[2 * k + 1]!;
    const pr = played[2 * k]!;
    const pi = played[2 * k + 1]!;
    const power = pr * pr + pi * pi;
    const scale = gain > 0 && power > 0 ? gain / power : 0;
    quotient[2 * k] = scale * (re * pr + im * pi);
    quotient[2 * k + 1] = scale * (im * pr - re * pi);
  }
}

/** The deconvolution's own response by bin: 1 in the swept band, raised-cosine on log frequency outside. */
export function bandGain(
  excitation: Pick<Excitation, "sweptHz" | "growthS">,
  sampleRate: number,
  size: number,
): (bin: number) => number {
  const [startHz, endHz] = excitation.sweptHz;
  const topHz = Math.min(endHz * THIRD_OF_AN_OCTAVE, 0.49 * sampleRate);
  // A sound whose fades are not known may have none: then the edge lies inside the band, where there is energy.
  const inside = excitation.growthS === null;
  const low = inside ? [startHz, startHz * THIRD_OF_AN_OCTAVE] : [startHz / THIRD_OF_AN_OCTAVE, startHz];
  const high = inside ? [endHz / THIRD_OF_AN_OCTAVE ** 0.5, endHz] : [endHz, topHz];
  const binHz = sampleRate / size;
  return (bin) => {
    const frequencyHz = bin * binHz;
    return rise(frequencyHz, low[0]!, low[1]!) * (1 - rise(frequencyHz, high[0]!, high[1]!));
  };
}

function rise(frequencyHz: number, fromHz: number, toHz: number): number {
  if (frequencyHz <= fromHz) return 0;
  if (frequencyHz >= toHz) return 1;
  return 0.5 - 0.5 * Math.cos((Math.PI * Math.log(frequencyHz / fromHz)) / Math.log(toHz / fromHz));
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
