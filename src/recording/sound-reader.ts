import { InputError } from "../errors.js";
import { findContainer, findLayout } from "./containers/find-layout.js";
import { type ByteSource, readFrom } from "./containers/reading.js";
import { encodingOf, frameBytesOf } from "./containers/sample-layout.js";
import { decodeStretch } from "./decode/decode-stretch.js";
import { flacReader } from "./flac/flac-reader.js";

export type { ByteSource } from "./containers/reading.js";

/** A sound file of any length, read a stretch at a time. */
export interface SoundReader {
  readonly channels: number;
  readonly frames: number;
  readonly sampleRate: number;
  /** As the file stores it, for people: "24-bit PCM", "32-bit float". */
  readonly encoding: string;
  /** The header's length was never written: it was taken from the file's. */
  readonly lengthFromFile: boolean;
  /** Up to `count` frames from a frame on, fewer at the end: one array for each channel, or for each that is wanted (from 0). */
  read(from: number, count: number, wanted?: readonly number[]): Promise<readonly Float32Array[]>;
  /** Closes the source too. */
  close(): Promise<void>;
}

/**
 * Reads the header of a sound file (WAV, RF64, FLAC, AIFF, CAF), and then its samples a stretch at a time.
 *
 * Memory is that of the stretch; for FLAC also 16 bytes for each of its frames, 64 MiB at most.
 *
 * @param name - for messages
 * @throws {InputError} for everything that is not a whole, readable file
 */
export async function soundReader(source: ByteSource, name: string): Promise<SoundReader> {
  const container = await readFrom(source, findContainer(name));
  if (container === "FLAC") return flacReader(source, name);
  const layout = await readFrom(source, findLayout(container, source.bytes, name));
  const frameBytes = frameBytesOf(layout);
  const frames = layout.dataBytes / frameBytes;
  const { channels, sampleRate, lengthFromFile } = layout;
  return {
    ...{ channels, sampleRate, frames, lengthFromFile, encoding: encodingOf(layout) },
    async read(from, count, wanted) {
      const byteCount = Math.max(0, Math.min(count, frames - from)) * frameBytes;
      const bytes = await source.read(layout.dataStart + from * frameBytes, byteCount);
      if (bytes.length < byteCount) {
        throw new InputError("The file became shorter while it was read.", {
          where: name,
          remedy: "run again when no other program writes to it",
        });
      }
      return decodeStretch(bytes, layout, wanted ?? null, { name, firstFrame: from });
    },
    close: () => source.close(),
  };
}
