import { InputError } from "../errors.js";
import { decodeFrames } from "./decode-wav.js";
import { readWaveLayout, type WaveLayout } from "./riff.js";

/** A file that is read a stretch at a time. */
export interface ByteSource {
  readonly bytes: number;
  /** Up to `count` bytes from a byte on; fewer at the end. */
  read(from: number, count: number): Promise<Uint8Array>;
  close(): Promise<void>;
}

/** A WAV file of any length, read a stretch at a time. */
export interface WaveReader {
  readonly layout: WaveLayout;
  readonly frames: number;
  /** Up to `count` frames from a frame on; fewer at the end. */
  read(from: number, count: number): Promise<readonly Float32Array[]>;
}

/** Chunks before the samples are read up to here: pictures and notes of an editor fit. */
const LONGEST_HEADER = 16 * 2 ** 20;
const FIRST_LOOK = 2 ** 16;

/**
 * Reads the header of a WAV file, and then its samples a stretch at a time.
 *
 * @param name - for messages
 * @throws {InputError} for all that `decodeWav` refuses; a sample that is not finite is found when it is read
 */
export async function waveReader(source: ByteSource, name: string): Promise<WaveReader> {
  const layout = await layoutOf(source, name);
  const frameBytes = (layout.channels * layout.containerBits) / 8;
  const frames = layout.dataBytes / frameBytes;
  return {
    layout,
    frames,
    async read(from, count) {
      const wanted = Math.max(0, Math.min(count, frames - from)) * frameBytes;
      const bytes = await source.read(layout.dataStart + from * frameBytes, wanted);
      if (bytes.length < wanted) {
        throw new InputError("The WAV file became shorter while it was read.", {
          where: name,
          remedy: "run again when no other program writes to it",
        });
      }
      return decodeFrames(bytes, layout, name, from);
    },
  };
}

async function layoutOf(source: ByteSource, name: string): Promise<WaveLayout> {
  for (let look = FIRST_LOOK; ; look *= 16) {
    const head = await source.read(0, Math.min(look, source.bytes));
    try {
      return readWaveLayout(head, name, source.bytes);
    } catch (error) {
      // The samples may begin behind what was looked at.
      if (head.length === source.bytes || look >= LONGEST_HEADER) throw error;
    }
  }
}
