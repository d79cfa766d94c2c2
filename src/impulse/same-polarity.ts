import { forwardReal, inverseReal, transformSize } from "../dsp/fft.js";
import { paddedCut } from "../dsp/padded-cut.js";
import type { ImpulseResponse } from "../model.js";

const BEFORE_S = 0.0005;
const AFTER_S = 0.0015;

/**
 * Whether two direct sounds push the same way, by the sign of their strongest correlation.
 *
 * Between two equal loudspeakers it is certain; between different ones it is the better fit of the two, since crossovers
 * turn the phase.
 *
 * @returns where the sample rates differ, whether their largest swings go the same way
 */
export function samePolarity(a: ImpulseResponse, b: ImpulseResponse): boolean {
  if (a.sampleRate !== b.sampleRate) return a.polarity === b.polarity;
  const size = transformSize(2 * Math.ceil((BEFORE_S + AFTER_S) * a.sampleRate));
  const [first, second] = [a, b].map((impulse) => forwardReal(directSound(impulse), size));
  const cross = new Float64Array(size + 2);
  for (let k = 0; k <= size / 2; k++) {
    cross[2 * k] = first![2 * k]! * second![2 * k]! + first![2 * k + 1]! * second![2 * k + 1]!;
    cross[2 * k + 1] = first![2 * k]! * second![2 * k + 1]! - first![2 * k + 1]! * second![2 * k]!;
  }
  let strongest = 0;
  for (const value of inverseReal(cross)) if (Math.abs(value) > Math.abs(strongest)) strongest = value;
  return strongest >= 0;
}

/** The direct sound, faded out before most reflections. */
function directSound(impulse: ImpulseResponse): Float64Array {
  const { samples, sampleRate, arrivalSample } = impulse;
  const from = Math.round(arrivalSample - BEFORE_S * sampleRate);
  const cut = paddedCut(samples, from, Math.ceil((BEFORE_S + AFTER_S) * sampleRate));
  for (let n = 0; n < cut.length; n++) {
    const t = (from + n - arrivalSample) / sampleRate;
    cut[n]! *= t < 0 ? 1 : 0.5 + 0.5 * Math.cos((Math.PI * t) / AFTER_S);
  }
  return cut;
}
