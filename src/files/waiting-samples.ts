import { open } from "node:fs/promises";

import { openBytes } from "./byte-source.js";
import { writeBehind } from "./write-behind.js";

/**
 * Samples that wait on disk until their gain is known: stretch after stretch, in each one channel after the other.
 *
 * They are 32-bit floats: rounded to within a quarter of a step of 24 bits near full scale, to less below.
 */
export interface WaitingSamples {
  readonly path: string;
  readonly channels: number;
  readonly frames: number;
  /** Frames of every stretch but the last. */
  readonly stretch: number;
}

export interface WaitingWriter {
  write(channels: readonly Float64Array[]): Promise<void>;
  close(): Promise<void>;
}

export async function putWaiting(path: string): Promise<WaitingWriter> {
  const file = await open(path, "w");
  const behind = writeBehind((bytes) => file.writeFile(bytes));
  return {
    async write(channels) {
      const length = channels[0]?.length ?? 0;
      const samples = new Float32Array(channels.length * length);
      for (const [index, channel] of channels.entries()) samples.set(channel, index * length);
      await behind.write(new Uint8Array(samples.buffer));
    },
    async close() {
      try {
        await behind.end();
      } finally {
        await file.close();
      }
    },
  };
}

/** @param take - gets each stretch as it was put */
export async function playWaiting(
  { path, channels, frames, stretch }: WaitingSamples,
  take: (channels: readonly Float32Array[]) => Promise<void>,
): Promise<void> {
  const source = await openBytes(path);
  try {
    for (let from = 0; from < frames; from += stretch) {
      const length = Math.min(stretch, frames - from);
      const bytes = await source.read(4 * channels * from, 4 * channels * length);
      const samples = new Float32Array(bytes.buffer);
      await take(Array.from({ length: channels }, (_, n) => samples.subarray(n * length, (n + 1) * length)));
    }
  } finally {
    await source.close();
  }
}
