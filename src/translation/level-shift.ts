import { weightingA } from "../standards/iec61672.js";
import { levelShiftDb } from "../standards/iso226.js";
import { BANDS } from "./bands.js";
import { type Programme, programmeAtLevel } from "./heard.js";

/** How the balance seems to change because something is heard at another level; a line of its own, never part of a drift. */
export interface LevelShift {
  /** C-weighted levels of the programme, dB SPL. */
  readonly fromDb: number;
  readonly toDb: number;
  readonly bands: readonly { readonly nominalHz: number; readonly shiftDb: number | null }[];
}

/**
 * Change of the balance against 1 kHz between two levels, by the equal-loudness contours.
 *
 * It depends on the difference of the levels and hardly on where they start, so a level of music may stand for one of tones.
 *
 * @param toDba - A-weighted level at which the programme is heard
 * @remarks Source: ISO 226:2003, tones; how far people expect the thinner sound at low level is not known.
 */
export function levelShift(programme: Programme, fromDb: number, toDba: number): LevelShift {
  const toDb = toDba + cMinusA(programme);
  return {
    fromDb,
    toDb,
    bands: BANDS.map(({ nominalHz }) => ({ nominalHz, shiftDb: levelShiftDb(nominalHz, fromDb, toDb) })),
  };
}

/** How much more a programme reads on a meter with C-weighting than with A-weighting, dB. */
export function cMinusA(programme: Programme): number {
  const power = programmeAtLevel(programme, 0).reduce(
    (sum, level, k) => sum + 10 ** ((level + weightingA(BANDS[k]!.exactHz)) / 10),
    0,
  );
  return -10 * Math.log10(power);
}
