import { forwardReal, inverseReal, transformSize } from "../../../src/dsp/fft.js";

/** Passes a sound through a response without phase of its own. */
export function filtered(
  samples: Float64Array,
  sampleRate: number,
  gainAt: (frequencyHz: number) => number,
): Float64Array {
  const spectrum = forwardReal(samples, transformSize(samples.length));
  const size = spectrum.length - 2;
  for (let k = 0; k <= size / 2; k++) {
    const gain = gainAt((k * sampleRate) / size);
    spectrum[2 * k]! *= gain;
    spectrum[2 * k + 1]! *= gain;
  }
  return inverseReal(spectrum).slice(0, samples.length);
}

/** A converter's or codec's filter: all or nothing within so much of an octave. */
export function steep(edgeHz: number, octaves = 0.05): (frequencyHz: number) => number {
  return (hz) => {
    const past = Math.log2(Math.max(hz, 1) / edgeHz) / octaves;
    return past <= 0 ? 1 : past >= 1 ? 0 : 0.5 + 0.5 * Math.cos(Math.PI * past);
  };
}

/** Level of a low-pass of so many dB an octave, Butterworth. */
export function slope(edgeHz: number, dbPerOctave: number): (frequencyHz: number) => number {
  return (hz) => (1 + (hz / edgeHz) ** (dbPerOctave / 3.0103)) ** -0.5;
}
