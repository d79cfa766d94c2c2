import { InputError } from "../../errors.js";
import { aboutMix } from "../../recording/about-mix.js";
import type { SoundReader } from "../../recording/sound-reader.js";
import { PINK_DB, POPULAR_MUSIC_DB } from "../../standards/popular-music.js";
import type { Programme } from "../../translation/heard.js";
import { mixSpectrum } from "../../translation/listen/mix-spectrum.js";
import { mixProgramme } from "../../translation/programme-of-mix.js";

const BUILT_IN = new Map([
  ["popular", POPULAR_MUSIC_DB],
  ["pink", PINK_DB],
]);

/** Where a session names its programme. */
const FIELD = "session.json, translation.programme";
/** A spectrum of anything shorter is that of a few notes; the longest frame that it is made of lasts 1.4 s. A choice of ours. */
const SHORTEST_S = 2;
/** Twice the upper edge of the third octave at 16 kHz: a lower rate leaves bands that nothing is known of. */
const LOWEST_RATE = 2 * 17_800;
/** Mean power re a full-scale square. A choice of ours, as the level under which a programme's loudness is not measured. */
const SILENT = 1e-7;
const STRETCH = 2 ** 15;

/** @throws {InputError} if there is no such programme */
export function builtInProgramme(name: string): Programme {
  const levelDb = BUILT_IN.get(name);
  if (levelDb) return { name, levelDb };
  throw new InputError(`There is no programme "${name}".`, {
    where: FIELD,
    remedy: `use one of: ${[...BUILT_IN.keys()].join(", ")}, or name a WAV, FLAC, AIFF or CAF file in the session folder`,
  });
}

/**
 * Hears a mix from beginning to end for its long-term spectrum, a stretch at a time.
 *
 * @param name - the file's name in the session
 * @throws {InputError} if it has more than two channels, is too short, silent, or its rate leaves out part of 25 Hz-16 kHz
 */
export async function hearProgramme(mix: SoundReader, name: string): Promise<Programme> {
  const refuse = (what: string, remedy: string): InputError =>
    new InputError(what, { where: `${FIELD}: ${name}`, remedy });
  const { frames, sampleRate, channels } = mix;
  const durationS = frames / sampleRate;
  if (channels > 2) {
    throw refuse(`The mix has ${channels} channels; one or two can stand for the programme.`, "export a stereo mix");
  }
  if (sampleRate < LOWEST_RATE) {
    throw refuse(
      `The mix is sampled at ${sampleRate} Hz, so it holds nothing of the third octave at 16 kHz, up to 17.8 kHz.`,
      "export it at 44100 Hz or more",
    );
  }
  if (durationS < SHORTEST_S) {
    throw refuse(`The mix lasts only ${durationS.toFixed(2)} s.`, `give one of ${SHORTEST_S} s or more`);
  }
  const spectrum = mixSpectrum(sampleRate);
  for (let from = 0; from < frames; from += STRETCH) {
    const [left, right] = await mix.read(from, STRETCH);
    if (left) spectrum.push(left, right ?? left);
  }
  const bands = spectrum.bands();
  const power = bands.reduce((sum, { left, right }) => sum + (left + right) / 2, 0);
  if (power < SILENT)
    throw refuse("The mix is silent: its long-term level is below -70 dB re full scale.", "export it again");
  return mixProgramme(name, bands);
}

/** What goes wrong with the file is said of a mix, and of the field that names it. */
export function saidOfProgramme(error: unknown): unknown {
  if (!(error instanceof InputError) || error.where.startsWith(FIELD)) return error;
  const { message, where, remedy } = aboutMix(error);
  return new InputError(message, { where: `${FIELD}: ${where}`, remedy });
}
