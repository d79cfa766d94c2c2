import { carNoiseDb } from "../standards/car-noise.js";
import { bandEdges } from "../standards/iec61260.js";
import { BANDS, type Curve } from "./bands.js";
import { type Programme, programmeAtLevel } from "./heard.js";
import { cMinusA } from "./level-shift.js";

/** What a moving car's noise covers; a line of its own, never part of a drift. */
export interface CarMasking {
  readonly speedKmh: number;
  /** A-weighted level of the music before the cabin's own curve, dB. */
  readonly levelDba: number;
  /** The music's third octaves over those of the noise. */
  readonly bands: readonly { readonly nominalHz: number; readonly overNoiseDb: number | null }[];
  /** Upper edge of the lowest bands that lie under the noise; null where the lowest stands above it. */
  readonly maskedBelowHz: number | null;
}

const SPEED_KMH = 100;

/**
 * Level of music over the noise in a moving car.
 *
 * @param deviationDb - of the cabin, dB re neutral
 * @param levelDba - at which the programme would read with a neutral system
 */
export function carMasking(programme: Programme, deviationDb: Curve, levelDba: number): CarMasking {
  const music = programmeAtLevel(programme, levelDba + cMinusA(programme));
  const bands = BANDS.map(({ nominalHz }, k) => {
    const noiseDb = carNoiseDb(nominalHz, SPEED_KMH);
    const deviation = deviationDb[k] ?? null;
    return {
      nominalHz,
      overNoiseDb: noiseDb === null || deviation === null ? null : music[k]! + deviation - noiseDb,
    };
  });
  const first = bands.findIndex(({ overNoiseDb }) => overNoiseDb !== null && overNoiseDb >= 0);
  return {
    speedKmh: SPEED_KMH,
    levelDba,
    bands,
    maskedBelowHz: first > 0 ? bandEdges(BANDS[first - 1]!)[1] : null,
  };
}
