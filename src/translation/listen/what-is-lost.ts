import { hearingThresholdDb } from "../../standards/iso226.js";
import { OCTAVES } from "../../standards/iec61260.js";
import type { ClassMember, PlaybackClass } from "../../standards/playback-classes/playback-class.js";
import { BANDS, type Curve } from "../bands.js";
import { NOTE_CREST_DB } from "../limits.js";
import type { SoundField } from "../loudness/core-loudness.js";
import { specificLoudness } from "../loudness/specific-loudness.js";
import { deviceNoiseDb } from "./device-noise.js";
import type { BandPower } from "./mix-spectrum.js";
import { devicePowers, gainToLevel } from "./played-level.js";

/** What a member of a class makes of a mix. */
export interface Lost {
  readonly member: ClassMember;
  /** Share of the loudness, over 24 Bark, that a neutral system at the same A-weighted level would give and this does not, 0 to 1. */
  readonly loudnessShare: number | null;
  /** Lowest octave of which at least two of its three third octaves are heard; null too where none is. */
  readonly lowestOctaveHz: number | null;
  /** Why something is null: the device gives nothing of the mix, a level is not stated, or one is beyond what the model is made for. */
  readonly reason: "nothing-left" | "level-not-stated" | "noise-not-stated" | "beyond-the-model" | null;
}

/** ISO 532-1 is defined for these, and up to this level. */
const LOUDNESS_BANDS = 28;
const LOUDEST_DB = 120;
/** Of the three third octaves of an octave. A choice of ours. */
const HEARD_OF_THREE = 2;

/**
 * How much of a mix is lost on a playback class, at the class's own level.
 *
 * Noise around the device hides low bands; as lost loudness it is not counted, since it hides them on a neutral system too.
 * What the class does not state is left out on both systems, and no octave is claimed there.
 *
 * @param curveDb - of the member of the class, by third octave; null where the class states nothing
 * @returns figures of a model: loudness after ISO 532-1 on the long-term spectrum, for the difference only
 */
export function whatIsLost(
  bands: readonly BandPower[],
  { id, mono, levelDba: { typical, noise } }: Pick<PlaybackClass, "id" | "mono" | "levelDba">,
  member: ClassMember,
  curveDb: Curve,
): Lost {
  const nothing = { member, loudnessShare: null, lowestOctaveHz: null };
  if (typical === null) return { ...nothing, reason: "level-not-stated" };
  const flat = curveDb.map((level) => (level === null ? null : 0));
  const neutralDb = levelsAt(devicePowers(bands, false), flat, typical);
  const heardDb = levelsAt(devicePowers(bands, mono), curveDb, typical);
  if (neutralDb === null) return { ...nothing, reason: "nothing-left" };
  if (heardDb === null) return { ...nothing, loudnessShare: 1, reason: "nothing-left" };
  const lowestOctaveHz = noise === null ? null : lowestOctave(heardDb, deviceNoiseDb(id, noise));
  const within = [...neutralDb, ...heardDb].every((level) => level <= LOUDEST_DB);
  const loudnessShare = within ? lostShare(neutralDb, heardDb, id === "earphones" ? "free" : "diffuse") : null;
  return { member, loudnessShare, lowestOctaveHz, reason: reasonOf(within, loudnessShare, noise) };
}

function reasonOf(within: boolean, loudnessShare: number | null, noise: number | null): Lost["reason"] {
  if (!within) return "beyond-the-model";
  if (loudnessShare === null) return "nothing-left";
  return noise === null ? "noise-not-stated" : null;
}

/** @returns null where a neutral system would give nothing that is heard */
function lostShare(neutralDb: readonly number[], heardDb: readonly number[], field: SoundField): number | null {
  const [neutral, heard] = [neutralDb, heardDb].map((levels) =>
    specificLoudness(levels.slice(0, LOUDNESS_BANDS), field),
  );
  let all = 0;
  let lost = 0;
  for (const [z, loudness] of neutral!.specific.entries()) {
    all += loudness;
    lost += Math.max(0, loudness - heard!.specific[z]!);
  }
  return all > 0 ? lost / all : null;
}

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
