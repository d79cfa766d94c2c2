import { forwardReal, inverseReal, transformSize } from "../../dsp/fft.js";
import { responseOf, type Monitor } from "../monitor.js";

/**
 * Passes a signal through a monitor's linear response, exactly, bin by bin.
 *
 * What comes out has the closed form's level and phase at every frequency the signal holds: the truth for tests.
 * The filter acts on the frequencies below half the sample rate only, so a signal that reaches up to there rings
 * symmetrically, as every ideal band limit does.
 *
 * @param samples - shape `[n]`, linear amplitude
 * @param sampleRate - Hz
 * @param monitor - its parameters; distortion is not applied here
 * @param tailS - seconds added for the decay; what is left after them wraps round to the start
 * @returns shape `[n + round(tailS * sampleRate)]`
 */
export function monitorFilter(
  samples: ArrayLike<number>,
  sampleRate: number,
  monitor: Monitor,
  tailS = 1,
): Float64Array {
  const length = samples.length + Math.round(tailS * sampleRate);
  const spectrum = forwardReal(samples, transformSize(Math.max(length, 4)));
  const size = spectrum.length - 2;
  const responseAt = responseOf(monitor);
  for (let k = 0; k <= size / 2; k++) {
    const [real, imaginary] = responseAt((k * sampleRate) / size);
    const r = spectrum[2 * k]!;
    const i = spectrum[2 * k + 1]!;
    spectrum[2 * k] = r * real - i * imaginary;
    spectrum[2 * k + 1] = r * imaginary + i * real;
  }
  return inverseReal(spectrum).slice(0, length);
}
