import { type FileHandle, open } from "node:fs/promises";

import { InputError } from "../errors.js";
import { decodeFrames } from "../recording/decode-wav.js";
import { encodeFrames, type WavDescription, wavHeader } from "../recording/encode-wav.js";
import { readWaveLayout, type WaveLayout } from "../recording/riff.js";

/** A WAV file of any length, read a stretch at a time. */
export interface WaveReader {
  readonly layout: WaveLayout;
  readonly frames: number;
  /** Up to `count` frames from a frame on; fewer at the end. */
  read(from: number, count: number): Promise<readonly Float32Array[]>;
  close(): Promise<void>;
}

/** Chunks before the samples are read up to here: pictures and notes of an editor fit. */
const LONGEST_HEADER = 16 * 2 ** 20;
const FIRST_LOOK = 2 ** 16;

/**
 * Opens a WAV file for reading a stretch at a time.
 *
 * @param name - for messages
 * @throws {InputError} for all that `decodeWav` refuses; a sample that is not finite is found when it is read
 */
export async function openWave(path: string, name: string): Promise<WaveReader> {
  const file = await open(path);
  try {
    const { size } = await file.stat();
    const layout = await layoutOf(file, size, name);
    const frameBytes = (layout.channels * layout.containerBits) / 8;
    const frames = layout.dataBytes / frameBytes;
    return {
      layout,
      frames,
      async read(from, count) {
        const wanted = Math.max(0, Math.min(count, frames - from)) * frameBytes;
        const bytes = await bytesOf(file, layout.dataStart + from * frameBytes, wanted);
        if (bytes.length < wanted) {
          throw new InputError("The WAV file became shorter while it was read.", {
            where: name,
            remedy: "run again when no other program writes to it",
          });
        }
        return decodeFrames(bytes, layout, name, from);
      },
      close: () => file.close(),
    };
  } catch (error) {
    await file.close();
    throw error;
  }
}

async function layoutOf(file: FileHandle, fileBytes: number, name: string): Promise<WaveLayout> {
  for (let look = FIRST_LOOK; ; look *= 16) {
    const head = await bytesOf(file, 0, Math.min(look, fileBytes));
    try {
      return readWaveLayout(head, name, fileBytes);
    } catch (error) {
      // The samples may begin behind what was looked at.
      if (head.length === fileBytes || look >= LONGEST_HEADER) throw error;
    }
  }
}

async function bytesOf(file: FileHandle, from: number, count: number): Promise<Uint8Array> {
  const bytes = new Uint8Array(count);
  let filled = 0;
  while (filled < count) {
    const { bytesRead } = await file.read(bytes, filled, count - filled, from + filled);
    if (bytesRead === 0) break;
    filled += bytesRead;
  }
  return filled < count ? bytes.subarray(0, filled) : bytes;
}

/** A WAV file that is written a stretch at a time. */
export interface WaveWriter {
  write(channels: readonly (Float32Array | Float64Array)[]): Promise<void>;
  /** @throws {RangeError} if it holds another number of frames than its header says */
  close(): Promise<void>;
}

/** @throws {RangeError} if the file would pass 4 GB */
export async function createWave(path: string, description: WavDescription): Promise<WaveWriter> {
  const header = wavHeader(description);
  const file = await open(path, "w");
  let written = 0;
  const put = async (bytes: Uint8Array): Promise<void> => {
    let at = 0;
    while (at < bytes.length) at += (await file.write(bytes, at)).bytesWritten;
  };
  await put(header);
  return {
    async write(channels) {
      written += channels[0]?.length ?? 0;
      await put(encodeFrames(channels, description.format));
    },
    async close() {
      if ((header.length + written * frameBytesOf(description)) % 2 === 1) await put(new Uint8Array(1));
      await file.close();
      if (written !== description.frames)
        throw new RangeError(`${written} frames were written, not ${description.frames}`);
    },
  };
}

function frameBytesOf({ channels, format }: WavDescription): number {
  return encodeFrames(
    Array.from({ length: channels }, () => new Float32Array(1)),
    format,
  ).length;
}
