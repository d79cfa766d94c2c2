import type { Measurement, MonitorResult, Results } from "../../model.js";
import type { ChangedQuantity } from "../../schema/changes.js";
import type { JustNoticeable } from "../../standards/just-noticeable.js";

/** One quantity of one pair, before anybody has judged it. */
export interface Reading {
  readonly quantity: string;
  readonly bandHz: number | null;
  readonly fraction: 1 | 3 | null;
  readonly atS: number | null;
  readonly unit: ChangedQuantity["unit"];
  readonly before: number | null;
  readonly after: number | null;
  /** The side on which it was not found, and whose value is the most that can be there. */
  readonly missing?: "before" | "after" | null;
  /** Standard uncertainty of the difference; null where it is not known. */
  readonly uncertainty: number | null;
  readonly justNoticeable: JustNoticeable;
  readonly goal: Goal | null;
  /** Why nothing can be told whatever the figures are; null where something can. */
  readonly reason: string | null;
}

/** What a quantity ought to be: how far it is away from that, before and after, in its own unit. */
export interface Goal {
  /** As in "nearer to ...". */
  readonly name: string;
  readonly before: number;
  readonly after: number;
}

/** What one session, or one of its monitors, says beside its measurements. */
export interface Side {
  readonly results: Results;
  readonly monitor: MonitorResult;
  readonly volumeM3: number | null;
}

/** One monitor, channel and position, twice. */
export interface MeasurementPair {
  readonly before: Measurement;
  readonly after: Measurement;
  readonly sides: { readonly before: Side; readonly after: Side };
  /** How far apart the two places of the microphone may be, root mean square; null where nobody can know. */
  readonly apartM: number;
}

/** One monitor twice, or one and another. */
export interface MonitorPair {
  readonly before: Side;
  readonly after: Side;
  /** Of it, at the mix position. */
  readonly atMix: readonly MeasurementPair[];
  readonly apartM: number;
}

/** A kind of reading: one file each, listed in `quantities.ts`. */
export interface Quantity<Pair> {
  readonly of: (pair: Pair) => Reading[];
  /** By name of each quantity that it reads. */
  readonly justNoticeable: Readonly<Record<string, JustNoticeable>>;
}
