import { open } from "node:fs/promises";

import { encodeFrames, type WavDescription, wavHeader } from "../recording/encode-wav.js";
import { writeBehind } from "./write-behind.js";

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
  const behind = writeBehind(put);
  await behind.write(header);
  return {
    async write(channels) {
      written += channels[0]?.length ?? 0;
      await behind.write(encodeFrames(channels, description.format));
    },
    async close() {
      try {
        await behind.end();
        if ((header.length + written * frameBytesOf(description)) % 2 === 1) await put(new Uint8Array(1));
      } finally {
        await file.close();
      }
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
