import type { LogPower } from "../../dsp/log-power.js";

/** Where a response ends, though the sweep goes on. */
export interface BandLimit {
  readonly hz: number;
  /** How far the level falls there, dB. */
  readonly dropDb: number;
  /** All at once, as only a filter in a device does; otherwise a driver is missing. */
  readonly isCliff: boolean;
}

const LOWEST_CLIFF_HZ = 3500;
const STEPS_PER_OCTAVE = 24;
/** A sixth of an octave on either side, a twelfth between them. */
const SIDE = 2 ** (1 / 6);
const BETWEEN = 2 ** (1 / 12);
/** The steepest loudspeaker, 48 dB an octave, falls by 12 dB from one side to the other; a codec's filter by all there is. */
const CLIFF_DB = 20;
/** Right below the cliff there is something to fall from, re the middle. */
const STANDS_DB = -20;

const MIDDLE_HZ = [200, 2000] as const;
/** A file of whole numbers holds nothing softer: 120 dB under the middle. */
const FLOOR = 1e-12;
const TREBLE_HZ = [5000, 10_000] as const;
/** The dullest small loudspeaker is 10 dB down there; with its tweeter 20 dB too soft a two-way is 18. Both simulated. */
const MISSING_DB = 15;
const DOWN_DB = 10;

/**
 * Finds where a response ends too early: at a cliff, or for want of a tweeter.
 *
 * @param power - the steady-state response, noise included
 * @param sweptHz - where the sweep carried energy
 * @returns null when the response goes on as loudspeakers do
 */
export function bandLimit(power: LogPower, sweptHz: readonly [number, number]): BandLimit | null {
  const least = FLOOR * power.mean(...MIDDLE_HZ);
  const levelDb = (fromHz: number, toHz: number): number => 10 * Math.log10(Math.max(least, power.mean(fromHz, toHz)));
  const middleDb = levelDb(...MIDDLE_HZ);
  const step = 2 ** (1 / STEPS_PER_OCTAVE);
  let cliff: BandLimit | null = null;
  for (let hz = LOWEST_CLIFF_HZ; hz * BETWEEN * SIDE <= sweptHz[1]; hz *= step) {
    const belowDb = levelDb(hz / SIDE, hz);
    const dropDb = belowDb - levelDb(hz * BETWEEN, hz * BETWEEN * SIDE);
    if (dropDb < CLIFF_DB || belowDb < middleDb + STANDS_DB || dropDb <= (cliff?.dropDb ?? 0)) continue;
    // Behind a dip the level comes back.
    const restDb = levelDb(hz * BETWEEN, sweptHz[1]);
    if (belowDb - restDb > CLIFF_DB) cliff = { hz, dropDb, isCliff: true };
  }
  if (cliff) return cliff;
  if (sweptHz[1] < TREBLE_HZ[1]) return null;
  const dropDb = middleDb - levelDb(...TREBLE_HZ);
  if (dropDb < MISSING_DB) return null;
  let hz: number = TREBLE_HZ[1];
  while (hz > MIDDLE_HZ[0] && levelDb(hz / SIDE, hz) < middleDb - DOWN_DB) hz /= step;
  return { hz, dropDb, isCliff: false };
}
