export type Range = readonly [fromDb: number, toDb: number];

/** One third octave of a mix made on one system and heard on another. */
export interface DriftBand {
  readonly nominalHz: number;
  /** Louder than intended is positive; null where not controlled or not measured. */
  readonly driftDb: number | null;
  readonly rangeDb: Range | null;
  readonly controlled: boolean;
  /** What this room has put into the mix, and what the other system does to every mix; their sum is the drift. */
  readonly roomShareDb: number | null;
  readonly roomShareRangeDb: Range | null;
  readonly systemShareDb: number | null;
  /** From a poor to a good member of a class; else by the uncertainty of the measurement (k = 2). */
  readonly systemShareRangeDb: Range | null;
  readonly reason: "blind" | "not-measured" | "heard-on-not-measured" | "heard-on-not-stated" | null;
}

export interface DriftRegion extends Omit<DriftBand, "nominalHz"> {
  readonly region: string;
  /** By the drift; null without one. */
  readonly size: "small" | "clear" | "strong" | null;
}
