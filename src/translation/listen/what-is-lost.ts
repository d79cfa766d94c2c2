import { hearingThresholdDb } from "../../standards/iso226.js";
import { OCTAVES } from "../../standards/iec61260.js";
import type { ClassMember, PlaybackClass } from "../../standards/playback-classes/playback-class.js";
import { BANDS, type Curve } from "../bands.js";
import { NOTE_CREST_DB } from "../heard.js";
import { specificLoudness } from "../loudness/specific-loudness.js";
import { deviceNoiseDb } from "./device-noise.js";
import type { BandPower } from "./mix-spectrum.js";
import { devicePowers, gainToLevel } from "./played-level.js";

/** What a member of a class makes of a mix; null where it gives nothing of it. */
export interface Lost {
  readonly member: ClassMember;
  /** Share of the loudness, over 24 Bark, that a neutral system at the same A-weighted level would give and this does not, 0 to 1. */
  readonly loudnessShare: number | null;
  /** Lowest octave of which at least two of its three third octaves are heard. */
  readonly lowestOctaveHz: number | null;
}

/** ISO 532-1 is defined for these. */
const LOUDNESS_BANDS = 28;
/** Of the three third octaves of an octave. A choice of ours. */
const HEARD_OF_THREE = 2;

/**
 * How much of a mix is lost on a playback class, at the class's own level.
 *
 * Noise around the device hides low bands; as lost loudness it is not counted, since it hides them on a neutral system too.
 *
 * @param curveDb - of the member of the class, by third octave
 * @returns figures of a model: loudness after ISO 532-1 on the long-term spectrum, for the difference only
 */
export function whatIsLost(
  bands: readonly BandPower[],
  playbackClass: Pick<PlaybackClass, "id" | "mono" | "levelDba">,
  member: ClassMember,
  curveDb: Curve,
): Lost {
  const { typical } = playbackClass.levelDba;
  const field = playbackClass.id === "earphones" ? "free" : "diffuse";
  const neutralDb = levelsAt(devicePowers(bands, false), zeros, typical);
  const heardDb = levelsAt(devicePowers(bands, playbackClass.mono), curveDb, typical);
  if (neutralDb === null || heardDb === null) return { member, loudnessShare: null, lowestOctaveHz: null };
  const [neutral, heard] = [neutralDb, heardDb].map((levels) =>
    specificLoudness(levels.slice(0, LOUDNESS_BANDS), field),
  );
  let all = 0;
  let lost = 0;
  for (const [z, loudness] of neutral!.specific.entries()) {
    all += loudness;
    lost += Math.max(0, loudness - heard!.specific[z]!);
  }
  const noiseDb = deviceNoiseDb(playbackClass);
  return {
    member,
    loudnessShare: all > 0 ? lost / all : null,
    lowestOctaveHz: lowestOctave(heardDb, noiseDb),
  };
}

const zeros = BANDS.map(() => 0);

/** @returns dB SPL by third octave; null where nothing comes out */
function levelsAt(powers: readonly number[], curveDb: Curve, levelDba: number): number[] | null {
  const gainDb = gainToLevel(powers, curveDb, levelDba);
  if (gainDb === null) return null;
  return powers.map((power, k) => {
    const curve = curveDb[k];
    return curve == null ? -Infinity : 10 * Math.log10(power) + curve + gainDb;
  });
}

function lowestOctave(levelsDb: readonly number[], noiseDb: readonly number[]): number | null {
  const isHeard = BANDS.map(({ nominalHz }, k) => {
    const floor = Math.max(hearingThresholdDb(nominalHz) ?? Infinity, noiseDb[k]!);
    return levelsDb[k]! + NOTE_CREST_DB >= floor;
  });
  const lowest = OCTAVES.find(({ nominalHz }) => {
    const middle = BANDS.findIndex((band) => band.nominalHz === nominalHz);
    return [middle - 1, middle, middle + 1].filter((k) => isHeard[k]).length >= HEARD_OF_THREE;
  });
  return lowest?.nominalHz ?? null;
}
