import { alignmentDb, BANDS, type Curve } from "./bands.js";
import type { HeardLevel } from "./heard-level.js";

/** The one curve that is called neutral in a session. */
export interface Reference {
  readonly id: string;
  readonly source: string;
  /** Null where it says nothing. */
  readonly levelDb: (nominalHz: number) => number | null;
}

export interface Deviation {
  readonly deviationDb: Curve;
  /** Standard uncertainty. */
  readonly uncertaintyDb: Curve;
  /** Why no deviation is known. */
  readonly reason: "alignment-range-not-measured" | null;
}

/**
 * How far a monitor's tone is from what the session calls neutral, levels aligned over 200 Hz-4 kHz.
 *
 * All monitors are held against the same reference, so that the difference of two does not depend on their targets, nor on
 * the reference itself.
 *
 * The uncertainty is that of the band alone: the offset's, shared by fourteen bands, is far smaller.
 *
 * @returns dB, positive where the monitor is louder than neutral
 * @example deviations({ levelDb: all 3 dB, ... }, flat).deviationDb // all 0
 */
export function deviations({ levelDb, uncertaintyDb }: Omit<HeardLevel, "spreadDb">, reference: Reference): Deviation {
  const wanted = BANDS.map(({ nominalHz }) => reference.levelDb(nominalHz));
  const above = wanted.map((want, k) => (want === null || levelDb[k] == null ? null : levelDb[k] - want));
  const offsetDb = alignmentDb(above, (k) => wanted[k] !== null);
  if (offsetDb === null) {
    const nothing = BANDS.map(() => null);
    return { deviationDb: nothing, uncertaintyDb: nothing, reason: "alignment-range-not-measured" };
  }
  const deviationDb = above.map((level) => (level === null ? null : level - offsetDb));
  return {
    deviationDb,
    uncertaintyDb: deviationDb.map((deviation, k) => (deviation === null ? null : (uncertaintyDb[k] ?? null))),
    reason: null,
  };
}
