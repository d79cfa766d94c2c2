import { forwardReal, inverseReal, transformSize } from "../dsp/fft.js";
import type { HarmonicResponse, ImpulseResponse } from "../model.js";

/**
 * Takes a microphone's deviation out of an impulse response.
 *
 * Zero phase: a table of levels says nothing of phase, so the response's phase keeps the microphone's own.
 *
 * @param deviationDb - dB that the microphone reads too high, by frequency
 * @returns the response as a flat microphone would have it; its noise is corrected alike
 */
export function correctMicrophone(
  impulse: ImpulseResponse,
  deviationDb: (frequencyHz: number) => number,
): ImpulseResponse {
  const { samples, sampleRate, noise } = impulse;
  return {
    ...impulse,
    samples: corrected(samples, sampleRate, deviationDb),
    noise: noise && {
      frequencyHz: noise.frequencyHz,
      powerPerSecond: noise.powerPerSecond.map((power, k) => power * 10 ** (-deviationDb(noise.frequencyHz[k]!) / 10)),
    },
  };
}

/** The same for a harmonic's response: its sound passed the same microphone, at the harmonic's own frequency. */
export function correctHarmonic(
  harmonic: HarmonicResponse,
  deviationDb: (frequencyHz: number) => number,
): HarmonicResponse {
  return { ...harmonic, samples: corrected(harmonic.samples, harmonic.sampleRate, deviationDb) };
}

function corrected(
  samples: Float64Array,
  sampleRate: number,
  deviationDb: (frequencyHz: number) => number,
): Float64Array {
  const size = transformSize(Math.max(4, samples.length));
  const spectrum = forwardReal(samples, size);
  for (let k = 1; k <= size / 2; k++) {
    const gain = 10 ** (-deviationDb((k * sampleRate) / size) / 20);
    spectrum[2 * k]! *= gain;
    spectrum[2 * k + 1]! *= gain;
  }
  return inverseReal(spectrum).subarray(0, samples.length);
}
