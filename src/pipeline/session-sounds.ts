import type { Results } from "../model.js";
import { type ByteSource, type SoundReader, soundReader } from "../recording/sound-reader.js";
import type { SessionFiles } from "./inputs.js";

type Provenance = Results["provenance"]["files"];

/** So much of a file at a time. */
const STRETCH_BYTES = 2 ** 20;

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
