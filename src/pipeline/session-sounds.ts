import { InputError } from "../errors.js";
import type { DecodedAudio, Results } from "../model.js";
import { readStretches } from "../recording/read-tracks.js";
import { type ByteSource, type SoundReader, soundReader } from "../recording/sound-reader.js";
import type { SessionFiles } from "./inputs.js";

type Provenance = Results["provenance"]["files"];

/** So much of a file at a time. */
const STRETCH_BYTES = 2 ** 20;
/** Of all channels together: a quarter of a gigabyte. */
const MOST_AT_ONCE = 2 ** 26;

/**
 * Opens a sound file of the session, has it heard, and notes where it came from.
 *
 * @param provenance - gets an entry with the file's hash the first time that it is heard
 * @throws {InputError} if the file cannot be read
 */
export async function hearSound<Heard>(
  files: SessionFiles,
  provenance: Provenance,
  file: string,
  use: string,
  hear: (sound: SoundReader) => Promise<Heard>,
): Promise<Heard> {
  const source = await files.open(file);
  let opened: { close(): Promise<void> } = source;
  try {
    const entry = provenance.find((one) => one.file === file) ?? (await newEntry(source, files, file, use));
    if (!provenance.includes(entry)) provenance.push(entry);
    const sound = await soundReader(source, file);
    opened = sound;
    const { sampleRate, channels, frames, encoding } = sound;
    Object.assign(entry, { sampleRate, channels, encoding, durationS: frames / sampleRate });
    return await hear(sound);
  } finally {
    await opened.close();
  }
}

/** The hash of a file of any length. */
export async function sumOfFile(files: SessionFiles, file: string): Promise<string> {
  const source = await files.open(file);
  try {
    return await hashOf(source, files);
  } finally {
    await source.close();
  }
}

/**
 * Decodes all channels of a file at once.
 *
 * @throws {InputError} if the file cannot be read, or is so long that this would take too much memory
 */
export async function decodeSound(files: SessionFiles, file: string): Promise<DecodedAudio> {
  const source = await files.open(file);
  let opened: { close(): Promise<void> } = source;
  try {
    const sound = await soundReader(source, file);
    opened = sound;
    const { sampleRate, channels, frames, encoding } = sound;
    if (frames * channels > MOST_AT_ONCE) {
      throw new InputError(
        `The file lasts ${(frames / sampleRate / 60).toFixed(0)} minutes: too long to be looked into as a whole.`,
        {
          where: file,
          remedy: "cut out the part that is meant, or name it in session.json by hand",
        },
      );
    }
    const tracks = Array.from({ length: channels }, () => new Float32Array(frames));
    for await (const stretch of readStretches(sound, 0, frames, [...tracks.keys()])) {
      for (const [n, samples] of stretch.tracks.entries()) tracks[n]!.set(samples, stretch.at);
    }
    return { sampleRate, channels: tracks, encoding };
  } finally {
    await opened.close();
  }
}

async function newEntry(
  source: ByteSource,
  files: SessionFiles,
  file: string,
  use: string,
): Promise<Provenance[number]> {
  const unknown = { sampleRate: null, channels: null, durationS: null, encoding: null };
  return { file, sha256: await hashOf(source, files), bytes: source.bytes, use, ...unknown };
}

async function hashOf(source: ByteSource, files: SessionFiles): Promise<string> {
  const hash = files.sha256();
  for (let from = 0; from < source.bytes; from += STRETCH_BYTES) hash.add(await source.read(from, STRETCH_BYTES));
  return hash.hex();
}
