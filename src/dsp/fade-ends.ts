import { raisedCosine } from "./raised-cosine.js";

/**
 * Fades a signal in at its beginning and out at its end, along raised cosines.
 *
 * @param length - of the signal that is kept, samples
 * @param rise - samples of the first fade
 * @param fall - samples of the last
 * @returns the faded signal, shape `[length]`, and the window's sum of squares: how many samples of noise it lets in
 */
export function fadeEnds(
  samples: ArrayLike<number>,
  length: number,
  rise: number,
  fall: number,
): { faded: Float64Array; windowEnergy: number } {
  const faded = new Float64Array(length);
  let windowEnergy = 0;
  for (let n = 0; n < length; n++) {
    const gain = raisedCosine(Math.min((n + 0.5) / rise, (length - n - 0.5) / fall));
    windowEnergy += gain * gain;
    faded[n] = gain * samples[n]!;
  }
  return { faded, windowEnergy };
}
