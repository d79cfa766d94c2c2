import type { Measured } from "./labour.js";

/** Difference of arrival between the loudspeakers of a pair at one place. */
export interface PairArrival {
  /** Left minus right, seconds. */
  readonly differenceS: number;
  readonly uncertaintyS: number;
}

/**
 * How much later left arrives than right, from reels that hold both on one clock.
 *
 * The player's clock is known only as far as the markers tell: the time between the sweeps carries that uncertainty.
 *
 * @returns null when no recording holds both channels with a known clock
 */
export function pairArrival(left: Measured, right: Measured): PairArrival | null {
  const differences: number[] = [];
  let uncertaintyS = 0;
  for (const a of left.group.takes) {
    for (const b of right.group.takes) {
      if (a.recording !== b.recording || a.arrivalPlayedS === null || b.arrivalPlayedS === null || !a.drift) continue;
      differences.push(a.arrivalPlayedS - b.arrivalPlayedS);
      const clockS = Math.abs(b.playedAtS - a.playedAtS) * a.drift.uncertaintyPpm * 1e-6;
      uncertaintyS = Math.max(uncertaintyS, Math.hypot(clockS, a.arrivalUncertaintyS, b.arrivalUncertaintyS));
    }
  }
  if (differences.length === 0) return null;
  return { differenceS: differences.reduce((sum, one) => sum + one, 0) / differences.length, uncertaintyS };
}
