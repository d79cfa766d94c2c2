import { forwardReal, inverseReal, transformSize } from "../dsp/fft.js";
import type { ImpulseResponse } from "../model.js";

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
  const length = impulse.samples.length;
  const size = transformSize(length);
  const spectrum = forwardReal(impulse.samples, size);
  const binHz = impulse.sampleRate / size;
  for (let k = 1; k <= size / 2; k++) {
    const gain = 10 ** (-deviationDb(k * binHz) / 20);
    spectrum[2 * k]! *= gain;
    spectrum[2 * k + 1]! *= gain;
  }
  const noise = impulse.noise && {
    frequencyHz: impulse.noise.frequencyHz,
    powerPerSecond: impulse.noise.powerPerSecond.map(
      (power, k) => power * 10 ** (-deviationDb(impulse.noise!.frequencyHz[k]!) / 10),
    ),
  };
  return { ...impulse, samples: inverseReal(spectrum).subarray(0, length), noise };
}
