import { forwardReal } from "../../dsp/fft.js";
import { bandEdges } from "../../standards/iec61260.js";
import { BANDS } from "../bands.js";
import { frameStream, type FrameStream, hannWindow } from "./frame-stream.js";

/** Spacing of the bins is at most this, so that the lowest third octave (5.8 Hz wide) holds several. */
const WIDEST_BIN_HZ = 1.5;

/** Long-term powers of a third octave, full scale squared. */
export interface BandPower {
  readonly nominalHz: number;
  readonly left: number;
  readonly right: number;
  /** Mean of left times right: negative where they pull against each other. */
  readonly cross: number;
}

/** Quieter than this nothing is meant to be heard: about one step of 24 bits. */
export const NO_SOUND = 1e-14;

export interface MixSpectrum extends FrameStream {
  /** Mean over what was heard so far; all zero when that was less than one frame. */
  bands(): BandPower[];
}

/**
 * Listens to a stereo mix of any length and keeps its long-term powers by third octave.
 *
 * @remarks Source: P. D. Welch 1967, averaged windowed periodograms (from memory; a textbook method).
 */
export function mixSpectrum(sampleRate: number): MixSpectrum {
  const size = 2 ** Math.ceil(Math.log2(sampleRate / WIDEST_BIN_HZ));
  const window = hannWindow(size);
  const inWindow = window.reduce((sum, weight) => sum + weight * weight, 0);
  const bins = BANDS.map((band) => {
    const [fromHz, toHz] = bandEdges(band);
    const [from, to] = [fromHz, toHz].map((hz) => Math.min(size / 2, Math.ceil((hz * size) / sampleRate)));
    return { nominalHz: band.nominalHz, from: from!, to: to! };
  });
  const sums = bins.map(() => ({ left: 0, right: 0, cross: 0 }));
  let frames = 0;
  const stream = frameStream(size, size / 2, (left, right) => {
    const l = forwardReal(windowed(left, window), size);
    const r = forwardReal(windowed(right, window), size);
    frames++;
    for (const [b, { from, to }] of bins.entries()) {
      const sum = sums[b]!;
      for (let k = 2 * from; k < 2 * to; k += 2) {
        sum.left += l[k]! ** 2 + l[k + 1]! ** 2;
        sum.right += r[k]! ** 2 + r[k + 1]! ** 2;
        sum.cross += l[k]! * r[k]! + l[k + 1]! * r[k + 1]!;
      }
    }
  });
  return {
    push: stream.push,
    bands() {
      // Twice, for the mirrored half of the spectrum.
      const scale = frames === 0 ? 0 : 2 / (frames * size * inWindow);
      return bins.map(({ nominalHz }, b) => {
        const { left, right, cross } = sums[b]!;
        return { nominalHz, left: left * scale, right: right * scale, cross: cross * scale };
      });
    },
  };
}

function windowed(samples: Float64Array, window: Float64Array): Float64Array {
  const weighed = new Float64Array(samples.length);
  for (let n = 0; n < samples.length; n++) weighed[n] = samples[n]! * window[n]!;
  return weighed;
}
