import type { Residual } from "./residual.js";

/** A block and band in which the recording holds what neither the response nor the room's noise explains. */
export interface StrangeCell {
  readonly atS: number;
  readonly bandHz: number;
  /** Over the noise of the silent lead, dB. */
  readonly excessDb: number;
  /** Over the recorded sweep, dB: mean square to mean square. */
  readonly reSweepDb: number;
}

/** Chance alone stays under 12 dB in the narrowest band. */
export const LEAST_EXCESS_DB = 15;
/** Weaker than this re the sweep, nothing touches a decay's first 35 dB. Measured in the laboratory, see DEVELOPERS.md. */
export const LEAST_RE_SWEEP_DB = -53;

/** Lists the cells of a residual that matter, the earliest first. */
export function strangeCells({ startS, blockS, bandHz, noiseDb, excessDb }: Residual, sweepDb: number): StrangeCell[] {
  return excessDb.flatMap((row, block) =>
    [...row].flatMap((excess, band) => {
      const reSweepDb = noiseDb[band]! + excess - sweepDb;
      if (excess < LEAST_EXCESS_DB || reSweepDb < LEAST_RE_SWEEP_DB) return [];
      return [{ atS: startS + block * blockS, bandHz: bandHz[band]!, excessDb: excess, reSweepDb }];
    }),
  );
}
