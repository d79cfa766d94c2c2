import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

import { afterAll, describe, expect, it } from "vitest";

import { openSound } from "../../src/files/sound-file.js";
import { createWave } from "../../src/files/wave-file.js";
import { decodeWav } from "../../src/recording/decode-wav.js";
import { encodeWav } from "../../src/recording/encode-wav.js";
import { seededRandom } from "../recording/seeded-random.js";

const folder = mkdtempSync(join(tmpdir(), "carrywell-wave-"));
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

function noise(frames: number): Float32Array[] {
  const random = seededRandom(frames);
  return [0, 1].map(() => Float32Array.from({ length: frames }, () => random() - 0.5));
}

/** Puts a chunk between the header's format and the samples, as editors do with notes and pictures. */
function withNotes(file: Uint8Array, bytes: number): Uint8Array {
  const grown = new Uint8Array(file.length + 8 + bytes);
  grown.set(file.subarray(0, 36));
  grown.set(new TextEncoder().encode("LIST"), 36);
  const view = new DataView(grown.buffer);
  view.setUint32(40, bytes, true);
  grown.set(file.subarray(36), 44 + bytes);
  view.setUint32(4, grown.length - 8, true);
  return grown;
}

describe("A WAV file read a stretch at a time", () => {
  it.each(["pcm16", "pcm24", "float32"] as const)("holds the samples of the whole, as %s", async (format) => {
    const bytes = encodeWav(noise(10_007), 48_000, format);
    const path = join(folder, "a.wav");
    writeFileSync(path, bytes);
    const reader = await openSound(path, "a.wav");
    const whole = decodeWav(bytes, "a.wav");
    const read: number[][] = [[], []];
    for (let from = 0; from < reader.frames; from += 997) {
      for (const [side, samples] of (await reader.read(from, 997)).entries()) read[side]!.push(...samples);
    }
    await reader.close();
    expect(read.map((side) => Float32Array.from(side))).toEqual(whole.channels);
  });

  it("is found behind pictures and notes of a megabyte", async () => {
    const path = join(folder, "notes.wav");
    writeFileSync(path, withNotes(encodeWav(noise(100), 44_100, "pcm16"), 2 ** 20));
    const reader = await openSound(path, "notes.wav");
    expect(reader.frames).toBe(100);
    await reader.close();
  });

  it("is refused when it was cut short, and a sample that is no number is named by its place in the file", async () => {
    const bytes = encodeWav(noise(1000), 48_000, "float32");
    const path = join(folder, "bad.wav");
    writeFileSync(path, bytes.subarray(0, 4000));
    await expect(openSound(path, "bad.wav")).rejects.toThrow(/cut short/);
    new DataView(bytes.buffer).setFloat32(bytes.length - 8, Number.NaN, true);
    writeFileSync(path, bytes);
    const reader = await openSound(path, "bad.wav");
    await expect(reader.read(900, 100)).rejects.toMatchObject({
      where: expect.stringContaining("sample 999") as string,
    });
    await reader.close();
  });
});

describe("A WAV file written a stretch at a time", () => {
  it("is byte for byte the one that is written at once", async () => {
    const sides = noise(5001);
    const path = join(folder, "out.wav");
    const writer = await createWave(path, { channels: 2, frames: 5001, sampleRate: 48_000, format: "pcm24" });
    for (let at = 0; at < 5001; at += 640) await writer.write(sides.map((side) => side.subarray(at, at + 640)));
    await writer.close();
    expect(new Uint8Array(readFileSync(path))).toEqual(encodeWav(sides, 48_000, "pcm24"));
  });

  it("says when it is not what its header promised", async () => {
    const writer = await createWave(join(folder, "short.wav"), {
      ...{ channels: 1, frames: 10, sampleRate: 48_000, format: "pcm24" },
    });
    await expect(writer.close()).rejects.toThrow(RangeError);
  });
});
