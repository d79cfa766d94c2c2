import type { Measurement } from "../../model.js";

export interface ArrivalDifference {
  /** A minus b. */
  readonly arrivalS: number | null;
  readonly arrivalReason: "no-loopback" | "no-common-channel" | null;
}

/**
 * How much later one monitor arrives than another at one position: mean of the channels that both have.
 *
 * Two recordings share no clock; only times of flight can be compared.
 *
 * @param a - channels of one monitor
 * @param b - channels of the other
 */
export function compareArrival(a: readonly Measurement[], b: readonly Measurement[]): ArrivalDifference {
  const common = a.flatMap((one) => {
    const other = b.find(({ channel }) => channel === one.channel);
    return other ? [{ aS: one.arrival.timeS, bS: other.arrival.timeS }] : [];
  });
  if (common.length === 0) return { arrivalS: null, arrivalReason: "no-common-channel" };
  const differences = common.flatMap(({ aS, bS }) => (aS === null || bS === null ? [] : [aS - bS]));
  if (differences.length < common.length) return { arrivalS: null, arrivalReason: "no-loopback" };
  return { arrivalS: differences.reduce((sum, one) => sum + one, 0) / differences.length, arrivalReason: null };
}
