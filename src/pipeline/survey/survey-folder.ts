import { InputError } from "../../errors.js";
import { excitationFromRecipe, excitationFromSound } from "../../impulse/excitation.js";
import type { DecodedAudio } from "../../model.js";
import { partsOfName } from "../../naming/parts-of-name.js";
import { parseMicrophoneCalibration } from "../../recording/microphone-calibration.js";
import { parseRecipe } from "../../sweep/parse-recipe.js";
import type { SessionFiles } from "../inputs.js";
import { decodeSound, sumOfFile } from "../session-sounds.js";
import type { KnownSweep } from "./known-sweep.js";
import { type SoundContent, surveySound } from "./survey-sound.js";

/** A sound file of the folder with what it holds. */
export interface SurveyedSound {
  readonly file: string;
  readonly content: SoundContent | { readonly kind: "copy"; readonly of: string };
}

/** Everything in a folder that a session could be made of. */
export interface FolderSurvey {
  readonly sweeps: readonly KnownSweep[];
  readonly sounds: readonly SurveyedSound[];
  /** Tables of frequency and level. */
  readonly tables: readonly string[];
  /** Files that look like a recipe or a microphone's table, and cannot be read as one. */
  readonly damaged: readonly { readonly file: string; readonly reason: string }[];
}

const SOUND = /\.(wav|wave|bwf|rf64|w64|flac|aiff?|aifc|caf)$/i;
/** What phones and players write: no recording, since something of the sound is left out. */
const LOSSY = /\.(m4a|mp3|aac|ogg|opus|wma|mp4|mov)$/i;
const TABLE = /\.(txt|csv|tsv|cal|frd|mic)$/i;

/**
 * Looks into every file of a folder.
 *
 * @param listing - the files, relative to the folder with "/"
 * @param onProgress - which sound file is being heard
 * @throws {InputError} if nothing in the folder says what was played
 */
export async function surveyFolder(
  listing: readonly string[],
  files: SessionFiles,
  onProgress: (done: number, total: number, file: string) => void,
): Promise<FolderSurvey> {
  const damaged: { file: string; reason: string }[] = [];
  const soundFiles = listing.filter((file) => SOUND.test(file));
  const recipes = await recipesOf(listing, files, damaged);
  const sweeps = recipes.length > 0 ? recipes : await playedSounds(soundFiles, files);
  if (sweeps.length === 0) throw nothingPlayed(damaged);
  const tables = await tablesOf(listing, files, damaged);
  const sounds: (SurveyedSound & { readonly sum: string | null })[] = [];
  for (const [index, file] of soundFiles.entries()) {
    onProgress(index, soundFiles.length, file);
    if (sweeps.some((sweep) => sweep.file === file)) continue;
    sounds.push({ file, ...(await contentOf(file, files, sweeps)) });
  }
  const lossy = listing.filter((file) => LOSSY.test(file));
  return {
    ...{ sweeps, tables, damaged },
    sounds: [
      ...sounds.map((sound) => ofCopy(sound, sounds)),
      ...lossy.map((file) => ({ file, content: { kind: "unreadable" as const, reason: LOSSY_REASON } })),
    ],
  };
}

const LOSSY_REASON =
  "it is in a lossy or video format, which is not read: record as WAV, FLAC or AIFF, or export it as WAV to see what is left of it";

const depthOf = (file: string): number => file.split("/").length;

/** Of files that are the same, the one in the fewest folders and with the shortest name is the original. */
function ofCopy(
  { file, content, sum }: SurveyedSound & { readonly sum: string | null },
  all: readonly (SurveyedSound & { readonly sum: string | null })[],
): SurveyedSound {
  const same = all.filter((other) => sum !== null && other.sum === sum);
  const original = same.reduce(
    (a, b) => ((depthOf(b.file) - depthOf(a.file) || b.file.length - a.file.length) < 0 ? b : a),
    same[0] ?? { file },
  );
  return original.file === file ? { file, content } : { file, content: { kind: "copy", of: original.file } };
}

async function contentOf(
  file: string,
  files: SessionFiles,
  sweeps: readonly KnownSweep[],
): Promise<{ content: SurveyedSound["content"]; sum: string | null }> {
  try {
    const sum = await sumOfFile(files, file);
    const mayBeImpulse = partsOfName(file).some(({ says }) => says.kind === "impulse");
    return { content: surveySound(await decodeSound(files, file), file, sweeps, mayBeImpulse), sum };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { content: { kind: "unreadable", reason: `it cannot be read: ${error.message}` }, sum: null };
  }
}

async function recipesOf(
  listing: readonly string[],
  files: SessionFiles,
  damaged: { file: string; reason: string }[],
): Promise<KnownSweep[]> {
  const sweeps: KnownSweep[] = [];
  for (const file of listing.filter((name) => /\.json$/i.test(name))) {
    const text = await textOf(file, files);
    if (text === null || !text.includes('"carrywell/sweep/')) continue;
    try {
      const recipe = parseRecipe(text, file);
      sweeps.push({ file, recipe, excitation: excitationFromRecipe(recipe) });
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      damaged.push({ file, reason: error.message });
    }
  }
  return sweeps;
}

/** Without a recipe: sounds that are called a sweep, and not after a monitor or a place. */
async function playedSounds(soundFiles: readonly string[], files: SessionFiles): Promise<KnownSweep[]> {
  const sweeps: KnownSweep[] = [];
  for (const file of soundFiles) {
    const kinds = partsOfName(file).map(({ says }) => says.kind);
    if (!kinds.includes("played") || kinds.some((kind) => ["role", "monitor", "place", "unknown"].includes(kind)))
      continue;
    const excitation = await excitationOf(file, files);
    if (excitation) sweeps.push({ file, recipe: null, excitation });
  }
  return sweeps;
}

async function excitationOf(file: string, files: SessionFiles): Promise<KnownSweep["excitation"] | null> {
  let audio: DecodedAudio;
  try {
    audio = await decodeSound(files, file);
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
  const samples = audio.channels.find((channel) => channel.some((value) => value !== 0));
  return samples ? excitationFromSound({ samples, sampleRate: audio.sampleRate }) : null;
}

async function tablesOf(
  listing: readonly string[],
  files: SessionFiles,
  damaged: { file: string; reason: string }[],
): Promise<string[]> {
  const tables: string[] = [];
  for (const file of listing.filter((name) => TABLE.test(name))) {
    try {
      parseMicrophoneCalibration(await files.read(file), file);
      tables.push(file);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      const isMeant = partsOfName(file).some(({ says }) => says.kind === "microphone");
      if (isMeant) damaged.push({ file, reason: `${error.message} (${error.where})` });
    }
  }
  return tables;
}

async function textOf(file: string, files: SessionFiles): Promise<string | null> {
  try {
    return new TextDecoder().decode(await files.read(file));
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}

function nothingPlayed(damaged: FolderSurvey["damaged"]): InputError {
  const [recipe] = damaged;
  if (recipe) {
    return new InputError(`The sweep recipe cannot be used: ${recipe.reason}`, {
      where: recipe.file,
      remedy: "copy the sweep.json again that was written together with the sweep",
    });
  }
  return new InputError("Nothing in the folder says what was played.", {
    where: "sweep.json",
    remedy: 'copy the sweep.json of the folder that "carrywell sweep" wrote beside the recordings',
  });
}
