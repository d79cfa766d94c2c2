import { LOUDNESS_THIRD_OCTAVES, LOW_GROUPS, UPPER_EDGE_BARK } from "../../standards/iso532.js";
import type { SoundField } from "./core-loudness.js";
import { specificLoudness } from "./specific-loudness.js";

/** What a monitor or a playback system does to the loudness of a programme. Of music only such differences mean something. */
export interface LoudnessChange {
  /** Shape `[24]`, mean over each Bark with minus without the deviation, sone per Bark; null where the deviation is not known. */
  readonly perBark: readonly (number | null)[];
  /** Share of the loudness that is lost, 0 to 1; below 0 it gets louder. Null if the programme itself cannot be heard. */
  readonly lostShare: number | null;
  /** Equally loud level with minus without the deviation, phon; null as above. */
  readonly phon: number | null;
}

const BARKS = 24;
const STEPS = 10;

/**
 * Compares the loudness of a programme with and without a deviation, after ISO 532-1.
 *
 * Above 12.5 kHz the method hears nothing: there level and threshold have to do. A band whose deviation is not known is taken as it is
 * on both sides, so that it adds nothing to the difference.
 *
 * @param levelDb - third octaves of the programme from 25 Hz up, at least 28, dB SPL at the listener
 * @param deviationDb - of the same bands, dB; null where not known
 * @param field - diffuse in rooms, free for earphones
 * @throws {RangeError} if there are fewer than 28 bands or a level is beyond 120 dB
 */
export function loudnessChange(
  levelDb: readonly number[],
  deviationDb: readonly (number | null)[],
  field: SoundField = "diffuse",
): LoudnessChange {
  const known = levelDb.slice(0, LOUDNESS_THIRD_OCTAVES);
  const without = specificLoudness(known, field);
  const withIt = specificLoudness(
    known.map((level, n) => level + (deviationDb[n] ?? 0)),
    field,
  );
  const unknown = unknownBarks(deviationDb);
  return {
    perBark: Array.from({ length: BARKS }, (_, bark) => {
      if (unknown.has(bark)) return null;
      let sum = 0;
      for (let n = bark * STEPS; n < (bark + 1) * STEPS; n++) sum += withIt.specific[n]! - without.specific[n]!;
      return sum / STEPS;
    }),
    lostShare: without.sone > 0 ? 1 - withIt.sone / without.sone : null,
    phon: without.sone > 0 ? withIt.phon - without.phon : null,
  };
}

/** Whole Barks, counted from 0, that hold part of a critical band of which a third octave is not known. */
function unknownBarks(deviationDb: readonly (number | null)[]): Set<number> {
  const barks = new Set<number>();
  for (let third = 0; third < LOUDNESS_THIRD_OCTAVES; third++) {
    if ((deviationDb[third] ?? null) !== null) continue;
    const band = criticalBand(third);
    const from = band === 0 ? 0 : UPPER_EDGE_BARK[band - 1]!;
    for (let bark = Math.floor(from); bark < Math.min(BARKS, UPPER_EDGE_BARK[band]!); bark++) barks.add(bark);
  }
  return barks;
}

/** The critical band that a third octave belongs to: the lowest three hold several. */
function criticalBand(third: number): number {
  let end = 0;
  for (const [group, size] of LOW_GROUPS.entries()) {
    end += size;
    if (third < end) return group;
  }
  return third - end + LOW_GROUPS.length;
}
