import { open } from "node:fs/promises";

import type { ByteSource } from "../recording/sound-reader.js";

/** Opens a file on disk for reading a stretch at a time. */
export async function openBytes(path: string): Promise<ByteSource> {
  const file = await open(path);
  try {
    const { size } = await file.stat();
    return {
      bytes: size,
      async read(from, count) {
        const bytes = new Uint8Array(count);
        let filled = 0;
        while (filled < count) {
          const { bytesRead } = await file.read(bytes, filled, count - filled, from + filled);
          if (bytesRead === 0) break;
          filled += bytesRead;
        }
        return filled < count ? bytes.subarray(0, filled) : bytes;
      },
      close: () => file.close(),
    };
  } catch (error) {
    await file.close();
    throw error;
  }
}
