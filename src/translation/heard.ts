import { THIRD_OCTAVES } from "../standards/iec61260.js";
import { weightingC } from "../standards/iec61672.js";
import { hearingThresholdDb } from "../standards/iso226.js";
import { NOTE_CREST_DB } from "./limits.js";

/** A programme's long-term spectrum. */
export interface Programme {
  readonly name: string;
  /** Level of each third octave from 25 Hz to 16 kHz (`HEARD_BANDS`), dB re anything, finite. */
  readonly levelDb: readonly number[];
  /** Bands in which it holds nothing, so that their level is only a bound; none without. */
  readonly empty?: readonly boolean[];
}

/** The third octaves of translation, 25 Hz to 16 kHz, in the order of every array beside it. */
export const HEARD_BANDS = THIRD_OCTAVES.slice(0, 29);

/** What is heard of one third octave. */
export interface HeardBand {
  readonly nominalHz: number;
  /** Long-term level at the listener, dB SPL; null where the monitor's deviation is not known. */
  readonly levelDb: number | null;
  /** Level of the threshold of hearing, dB SPL. */
  readonly thresholdDb: number;
  /** What hides the band first: the threshold of hearing or the room's noise where it is known and higher. */
  readonly hiddenBy: "threshold" | "noise";
  /** Long-term level over what hides it, dB. */
  readonly overFloorDb: number | null;
  /** The same for a note that stands out of the long-term level: the margin by which it is heard, below 0 not heard. */
  readonly audibleMarginDb: number | null;
}

/**
 * What is heard of a programme at a listening level on a monitor, third octave by third octave.
 *
 * The level is that of the neutral programme: the monitor's deviation raises or lowers what arrives, it does not move the volume
 * control. The margin is that of a single note, which stands out of the long-term level by the note crest.
 *
 * @param programme - its long-term spectrum
 * @param deviationDb - shape `[29]`, dB re neutral, aligned over 200 Hz to 4 kHz; null where not known
 * @param listeningLevelDb - C-weighted level of the neutral programme, dB SPL
 * @param noiseDb - shape `[29]`, third-octave levels of the room's noise, dB SPL; null, or null in a band, where not known
 * @param noteCrestDb - how far a note stands out of the long-term level of its band, dB
 * @returns one entry for each of `HEARD_BANDS`
 * @throws {RangeError} if an array has another length than the bands or a level is not finite
 */
export function heardAt(
  programme: Programme,
  deviationDb: readonly (number | null)[],
  listeningLevelDb: number,
  noiseDb: readonly (number | null)[] | null,
  noteCrestDb = NOTE_CREST_DB,
): HeardBand[] {
  refuseOtherLength("deviationDb", deviationDb);
  if (noiseDb !== null) refuseOtherLength("noiseDb", noiseDb);
  const neutralDb = programmeAtLevel(programme, listeningLevelDb);
  return HEARD_BANDS.map(({ nominalHz }, n): HeardBand => {
    const thresholdDb = hearingThresholdDb(nominalHz)!;
    const roomDb = noiseDb?.[n] ?? -Infinity;
    const deviation = deviationDb[n] ?? null;
    const levelDb = deviation === null ? null : neutralDb[n]! + deviation;
    const overFloorDb = levelDb === null ? null : levelDb - Math.max(thresholdDb, roomDb);
    return {
      nominalHz,
      levelDb,
      thresholdDb,
      hiddenBy: roomDb > thresholdDb ? "noise" : "threshold",
      overFloorDb,
      audibleMarginDb: overFloorDb === null ? null : overFloorDb + noteCrestDb,
    };
  });
}

/**
 * Third-octave levels of a programme that is played at a level.
 *
 * @param listeningLevelDb - C-weighted level of all bands together, dB SPL
 * @returns shape `[29]`, dB SPL
 * @throws {RangeError} if the programme has another number of bands or a level is not finite
 */
export function programmeAtLevel({ levelDb }: Programme, listeningLevelDb: number): number[] {
  refuseOtherLength("levelDb", levelDb);
  if (!levelDb.every(Number.isFinite)) throw new RangeError(`levelDb must be finite, got ${levelDb.join(", ")}`);
  if (!Number.isFinite(listeningLevelDb))
    throw new RangeError(`listeningLevelDb must be finite, got ${listeningLevelDb}`);
  const power = levelDb.reduce((sum, level, n) => sum + 10 ** ((level + weightingC(HEARD_BANDS[n]!.exactHz)) / 10), 0);
  const gainDb = listeningLevelDb - 10 * Math.log10(power);
  return levelDb.map((level) => level + gainDb);
}

function refuseOtherLength(name: string, levels: readonly unknown[]): void {
  if (levels.length !== HEARD_BANDS.length)
    throw new RangeError(`${name} must have ${HEARD_BANDS.length} entries, one a third octave, got ${levels.length}`);
}
