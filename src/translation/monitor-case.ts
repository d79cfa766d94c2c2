import type { Measurement, MonitorResult } from "../model.js";

/** All that is known of one monitor when it is judged. */
export interface MonitorCase {
  readonly result: MonitorResult;
  /** Left and right, or what there is, at the mix position. */
  readonly sides: readonly Measurement[];
  /** Both speakers at once at the mix position. */
  readonly phantom: Measurement | null;
  /** The same sides at each place within a head's reach, the mix position first; without it alone, one place. */
  readonly around: readonly (readonly Measurement[])[];
}
