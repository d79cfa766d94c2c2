import type { Measurement, Results } from "../../model.js";
import { minus, rootSum } from "../band-curve.js";
import { meanDecay } from "../mean-decay.js";

export type DecayDifference = Results["comparisons"][number]["decay"][number];

/**
 * Decay times of two monitors at one position by octave, each the mean of its channels.
 *
 * The room is the same; what differs is how each monitor fills it with sound, and how much of its direct sound is there.
 *
 * @param a - channels of one monitor
 * @param b - channels of the other
 * @returns one entry for each octave of `a`; null where a channel has no decay time
 */
export function compareDecay(a: readonly Measurement[], b: readonly Measurement[]): DecayDifference[] {
  const octaves = a[0]?.bands.filter((band) => band.fraction === 1) ?? [];
  return octaves.map(({ nominalHz }) => {
    const [first, second] = [meanDecay(a, nominalHz), meanDecay(b, nominalHz)];
    return {
      nominalHz,
      aS: first?.timeS ?? null,
      bS: second?.timeS ?? null,
      differenceS: minus(first?.timeS, second?.timeS),
      uncertaintyS: rootSum(first?.uncertaintyS, second?.uncertaintyS),
    };
  });
}
