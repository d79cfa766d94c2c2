import { type SoundReader, soundReader } from "../recording/sound-reader.js";
import { openBytes } from "./byte-source.js";

/**
 * Opens a sound file on disk for reading a stretch at a time.
 *
 * @param name - for messages
 * @throws {InputError} as `soundReader`
 */
export async function openSound(path: string, name: string): Promise<SoundReader> {
  const source = await openBytes(path);
  try {
    return await soundReader(source, name);
  } catch (error) {
    await source.close();
    throw error;
  }
}
