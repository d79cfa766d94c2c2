import type { BandMetrics } from "./results/band.js";

/** The one decay time that stands for a band. */
export interface RoomDecay {
  /** How far down it was read; `late` over 20 dB behind the direct sound's fall. */
  readonly evaluation: "T30" | "T20" | "late";
  readonly timeS: number;
  /** Standard uncertainty at this position; null where it is not known. */
  readonly uncertaintyS: number | null;
}

type Decays = Pick<BandMetrics, "t20S" | "t30S" | "lateS" | "decayUncertaintyS" | "lateUncertaintyS" | "flags">;

/**
 * Chooses the decay time that stands for a band, the same wherever one figure is wanted.
 *
 * T30 where the decay can be followed that far, else T20. Where the direct sound makes a cliff both are read across it and
 * are not the room's: there only the late decay counts. A `filter-limited` time is given like any other; the room itself
 * may be quicker.
 *
 * @returns null where no time is the room's; the band's flags say why
 * @remarks T30 before T20 is common practice, no source; the late decay is a choice of ours.
 */
export function roomDecay(band: Decays): RoomDecay | null {
  if (band.flags.includes("direct-dominated")) {
    return band.lateS === null ? null : { evaluation: "late", timeS: band.lateS, uncertaintyS: band.lateUncertaintyS };
  }
  if (band.t30S !== null) return { evaluation: "T30", timeS: band.t30S, uncertaintyS: band.decayUncertaintyS };
  return band.t20S === null ? null : { evaluation: "T20", timeS: band.t20S, uncertaintyS: band.decayUncertaintyS };
}
