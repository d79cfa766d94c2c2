import { LOUDNESS_THIRD_OCTAVES, UPPER_EDGE_BARK, UPPER_SLOPES } from "../../standards/iso532.js";
import { coreLoudness, type SoundField } from "./core-loudness.js";

/** Loudness over the ear's own frequency scale. */
export interface Loudness {
  /** Shape `[240]`, sone per Bark at 0.1, 0.2 ... 24 Bark. */
  readonly specific: readonly number[];
  readonly sone: number;
  /** Level of an equally loud tone at 1 kHz. */
  readonly phon: number;
}

const STEPS_PER_BARK = 10;

/**
 * Loudness of a stationary sound and how it spreads over 24 Bark.
 *
 * Each critical band is heard with a slope towards higher ones: what lies under the slope of a louder, lower neighbour is masked.
 * Made for steady sounds: of music it may be used for differences between two versions, not as a value in sone.
 *
 * @param thirdOctaveLevelsDb - shape `[28]`, 25 Hz to 12.5 kHz, dB SPL; minus infinity for a band without sound
 * @param field - of the sound at the listener
 * @returns all zero for silence
 * @throws {RangeError} if there are not 28 levels, or one is not a level or beyond 120 dB
 * @remarks Source: ISO 532-1:2017, 5 and Annex A, without its rounding of the total.
 */
export function specificLoudness(thirdOctaveLevelsDb: readonly number[], field: SoundField): Loudness {
  if (thirdOctaveLevelsDb.length !== LOUDNESS_THIRD_OCTAVES)
    throw new RangeError(`expected ${LOUDNESS_THIRD_OCTAVES} third-octave levels, got ${thirdOctaveLevelsDb.length}`);
  for (const level of thirdOctaveLevelsDb)
    if (!(level <= 120)) throw new RangeError(`a third-octave level must be at most 120 dB, got ${level}`);
  const { specific, sone } = spread(coreLoudness(thirdOctaveLevelsDb, field));
  return { specific, sone, phon: loudnessLevel(sone) };
}

/**
 * Level of the tone at 1 kHz that is as loud.
 *
 * @param sone - 0 or more
 * @returns phon
 * @remarks Source: ISO 532-1:2017, equations after the total loudness.
 * @example loudnessLevel(2) // 50
 */
export function loudnessLevel(sone: number): number {
  return sone >= 1 ? 40 + 10 * Math.log2(sone) : 40 * (sone + 0.0005) ** 0.35;
}

/** Adds to each band's core the slopes that lower bands throw over it, and integrates exactly along them. */
function spread(cores: readonly number[]): { specific: number[]; sone: number } {
  const specific: number[] = [];
  let sone = 0;
  let at = 0;
  let loudness = 0;
  let slope = 0;
  UPPER_EDGE_BARK.forEach((edge, band) => {
    const core = cores[band] ?? 0;
    while (at < edge) {
      const steepness = loudness > core ? steepnessAt(slope, band) : 0;
      let end = edge;
      let then = core;
      if (steepness > 0) {
        // Down to the next range of the slope, to the core, or to the band's edge, whichever comes first.
        then = Math.max(UPPER_SLOPES[slope]!.downTo, core);
        end = at + (loudness - then) / steepness;
        if (end > edge) {
          end = edge;
          then = loudness - (edge - at) * steepness;
        }
      } else {
        loudness = core;
        slope = slopeFor(core);
      }
      sone += ((end - at) * (loudness + then)) / 2;
      for (let z = markAfter(specific); z <= end + 1e-9; z = markAfter(specific))
        specific.push(loudness - (z - at) * steepness);
      at = end;
      loudness = then;
      while (slope < UPPER_SLOPES.length - 1 && loudness <= UPPER_SLOPES[slope]!.downTo) slope++;
    }
  });
  return { specific, sone };
}

function markAfter(specific: readonly number[]): number {
  return (specific.length + 1) / STEPS_PER_BARK;
}

function slopeFor(loudness: number): number {
  const found = UPPER_SLOPES.findIndex(({ downTo }) => downTo < loudness);
  return found < 0 ? UPPER_SLOPES.length - 1 : found;
}

function steepnessAt(slope: number, band: number): number {
  const row = UPPER_SLOPES[slope]!.steepness;
  // The first band has no lower neighbour whose slope could reach into it.
  return row[Math.min(Math.max(band - 1, 0), row.length - 1)]!;
}
