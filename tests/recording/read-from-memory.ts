import { type ByteSource, type SoundReader, soundReader } from "../../src/recording/sound-reader.js";

export function sourceOf(bytes: Uint8Array): ByteSource {
  return {
    bytes: bytes.length,
    read: (from, count) => Promise.resolve(bytes.subarray(from, from + count)),
    close: () => Promise.resolve(),
  };
}

export type ReadSound = Omit<SoundReader, "read" | "close" | "channels"> & { readonly channels: readonly number[][] };

/** Reads a file that is in memory as files on disk are read, as a whole. */
export async function readFromMemory(bytes: Uint8Array, name = "room.wav"): Promise<ReadSound> {
  const sound = await soundReader(sourceOf(bytes), name);
  const channels = (await sound.read(0, sound.frames)).map((samples) => Array.from(samples));
  await sound.close();
  const { frames, sampleRate, encoding, lengthFromFile } = sound;
  return { frames, sampleRate, encoding, lengthFromFile, channels };
}
