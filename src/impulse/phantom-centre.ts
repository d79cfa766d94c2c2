import { fractionalShift } from "../dsp/fractional-shift.js";
import type { ImpulseResponse } from "../model.js";

/** The phantom centre is stated up to here; above, centimetres decide. */
const PHANTOM_HIGHEST_HZ = 500;

/**
 * Adds left and right as the room does when both play the same: the phantom centre, where kick, bass and voice sit.
 *
 * @param rightLaterS - how much later right arrives than left, on the player's clock
 * @returns the complex sum at left's time, valid up to 500 Hz
 */
export function phantomCentre(left: ImpulseResponse, right: ImpulseResponse, rightLaterS: number): ImpulseResponse {
  const delay = left.arrivalSample + rightLaterS * left.sampleRate - right.arrivalSample;
  const moved = fractionalShift(right.samples, delay);
  const samples = new Float64Array(Math.min(left.samples.length, moved.length));
  for (let n = 0; n < samples.length; n++) samples[n] = left.samples[n]! + moved[n]!;
  const noise =
    left.noise && right.noise
      ? {
          frequencyHz: left.noise.frequencyHz,
          powerPerSecond: left.noise.powerPerSecond.map((power, k) => power + right.noise!.powerPerSecond[k]!),
        }
      : null;
  return {
    ...left,
    samples,
    arrivalSample: left.arrivalSample + Math.min(0, rightLaterS) * left.sampleRate,
    sweptHz: [left.sweptHz[0], Math.min(PHANTOM_HIGHEST_HZ, left.sweptHz[1])],
    noise,
  };
}
