import type { Curve } from "./bands.js";
import { type Programme, programmeAtLevel } from "./heard.js";
import type { SoundField } from "./loudness/core-loudness.js";
import { specificLoudness } from "./loudness/specific-loudness.js";

/** How loudly a monitor gives a programme, for the difference to a neutral one only: of music it is no loudness in sone. */
export interface HeardLoudness {
  /** Share of the neutral one's loudness that is not there, 0 to 1; what is too loud elsewhere makes up for none of it. */
  readonly lostShare: number;
  /** Mean specific loudness of each of the 24 critical bands, sone per Bark. */
  readonly barks: readonly { readonly bark: number; readonly neutral: number; readonly heard: number }[];
}

/** ISO 532-1 is defined for these third octaves, 25 Hz to 12.5 kHz, and up to this level. */
const LOUDNESS_BANDS = 28;
const LOUDEST_DB = 120;
const BARKS = 24;
/** Entries of a specific loudness in one Bark. */
const STEPS = 10;

/**
 * Specific loudness of a programme at a listening level on a monitor, beside that on a neutral one.
 *
 * @param deviationDb - shape `[29]`, dB re neutral; null where not known
 * @param listeningLevelDb - C-weighted level of the neutral programme, dB SPL
 * @param field - diffuse in rooms, free for earphones
 * @returns null where a band is not known, or is louder than the model is made for
 * @remarks Source: ISO 532-1:2017, stationary method.
 * @example heardLoudness(programme, zeros, 79, "diffuse")!.lostShare // 0
 */
export function heardLoudness(
  programme: Programme,
  deviationDb: Curve,
  listeningLevelDb: number,
  field: SoundField,
): HeardLoudness | null {
  const neutralDb = programmeAtLevel(programme, listeningLevelDb).slice(0, LOUDNESS_BANDS);
  const heardDb = neutralDb.map((level, k) => level + (deviationDb[k] ?? NaN));
  if (![...neutralDb, ...heardDb].every((level) => level <= LOUDEST_DB)) return null;
  const [neutral, heard] = [neutralDb, heardDb].map((levels) => specificLoudness(levels, field).specific);
  const all = sum(neutral!);
  if (all === 0) return null;
  return {
    lostShare: sum(neutral!.map((loudness, z) => Math.max(0, loudness - heard![z]!))) / all,
    barks: Array.from({ length: BARKS }, (_, bark) => ({
      bark: bark + 1,
      neutral: meanOf(neutral!, bark),
      heard: meanOf(heard!, bark),
    })),
  };
}

function meanOf(specific: readonly number[], bark: number): number {
  return sum(specific.slice(bark * STEPS, (bark + 1) * STEPS)) / STEPS;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
