import { forwardReal, inverseReal, transformSize } from "../dsp/fft.js";
import { paddedCut } from "../dsp/padded-cut.js";
import type { ImpulseResponse } from "../model.js";
import { absolutePolarity } from "./absolute-polarity.js";

/** Two direct sounds held against each other. */
export interface ComparedPolarity {
  readonly same: boolean;
  /** The other answer does not fit. */
  readonly isSure: boolean;
}

const BEFORE_S = 0.0005;
const AFTER_S = 0.0015;
/** Of one design on two sides of a room, right and wrong sign are 6 dB apart at least (800 simulated pairs). */
const CLEAR_BY = 10 ** (3 / 20);

/**
 * Whether the two sides of a pair push the same way: by their phase where it tells, else by the sign of their strongest
 * correlation, which is certain between two loudspeakers of one design.
 */
export function comparePolarity(a: ImpulseResponse, b: ImpulseResponse): ComparedPolarity {
  const [signA, signB] = [absolutePolarity(a), absolutePolarity(b)];
  if (signA !== null && signB !== null) return { same: signA === signB, isSure: true };
  if (a.sampleRate !== b.sampleRate) return { same: a.polarity === b.polarity, isSure: false };
  const { positive, negative } = strongestCorrelations(a, b);
  return {
    same: positive >= negative,
    isSure: Math.max(positive, negative) > CLEAR_BY * Math.min(positive, negative),
  };
}

/**
 * Whether two direct sounds push the same way.
 *
 * Between different loudspeakers whose phase does not tell it is the better fit of the two, since crossovers turn the phase.
 *
 * @returns where the sample rates differ and the phase does not tell, whether their largest swings go the same way
 */
export function samePolarity(a: ImpulseResponse, b: ImpulseResponse): boolean {
  return comparePolarity(a, b).same;
}

/** The strongest correlations of either sign; lags reach as far as the direct sound does. */
function strongestCorrelations(a: ImpulseResponse, b: ImpulseResponse): { positive: number; negative: number } {
  const size = transformSize(2 * Math.ceil((BEFORE_S + AFTER_S) * a.sampleRate));
  const [first, second] = [a, b].map((impulse) => forwardReal(directSound(impulse), size));
  const cross = new Float64Array(size + 2);
  for (let k = 0; k <= size / 2; k++) {
    cross[2 * k] = first![2 * k]! * second![2 * k]! + first![2 * k + 1]! * second![2 * k + 1]!;
    cross[2 * k + 1] = first![2 * k]! * second![2 * k + 1]! - first![2 * k + 1]! * second![2 * k]!;
  }
  let positive = 0;
  let negative = 0;
  for (const value of inverseReal(cross)) {
    positive = Math.max(positive, value);
    negative = Math.max(negative, -value);
  }
  return { positive, negative };
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
