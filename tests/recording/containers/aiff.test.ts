import { describe, expect, it } from "vitest";

import { readFromMemory } from "../read-from-memory.js";
import { aiffChunk, aiffFile, big } from "../sound-files.js";
import { ascii, concat, floatBytes, little } from "../wav-file.js";

const bigEndian = (steps: readonly number[], bits: number): Uint8Array =>
  concat(steps.map((step) => big(step < 0 ? step + 2 ** bits : step, bits / 8)));

const extremes = (bits: number): number[] => {
  const full = 2 ** (bits - 1);
  return [-full, -full + 1, -1, 0, 1, full / 2, full - 1];
};

const read = async (bytes: Uint8Array): ReturnType<typeof readFromMemory> => readFromMemory(bytes, "room.aif");

describe("A sample of AIFF is its step over half the range", () => {
  it.each([8, 16, 24, 32])("at %i bits, with its sign, at every extreme", async (bits) => {
    const steps = extremes(bits);
    const file = aiffFile({ bits, frames: steps.length, data: bigEndian(steps, bits) });
    expect((await read(file)).channels).toEqual([steps.map((step) => Math.fround(step / 2 ** (bits - 1)))]);
  });

  it("where AIFF-C turns the bytes round, or puts the zero of 8 bits in the middle", async () => {
    const turned = aiffFile({ kind: "sowt", frames: 2, data: Uint8Array.of(1, 0, 0, 0x80) });
    expect((await read(turned)).channels).toEqual([[1 / 32_768, -1]]);
    const offset = aiffFile({ kind: "raw ", bits: 8, frames: 3, data: Uint8Array.of(0, 128, 255) });
    expect((await read(offset)).channels).toEqual([[-1, 0, 127 / 128]]);
  });

  it("and a float of AIFF-C as it stands", async () => {
    const values = [0.5, -1.25, 1e-20].map(Math.fround);
    const data = concat(values.map((value) => floatBytes([value], 32).slice().reverse()));
    expect((await read(aiffFile({ kind: "fl32", bits: 32, frames: 3, data }))).channels).toEqual([values]);
  });

  it("with twelve bits in the upper part of sixteen", async () => {
    const file = aiffFile({ bits: 12, frames: 2, data: bigEndian([1 << 4, -(1 << 15)], 16) });
    expect(await read(file)).toMatchObject({ channels: [[2 ** -11, -1]], encoding: "12-bit PCM in 16-bit words" });
  });
});

describe("AIFF may be laid out in every way that is allowed", () => {
  const data = bigEndian([1, 2, 3, -4], 16);
  const expected = [
    [1, 3],
    [2, -4],
  ].map((steps) => steps.map((step) => step / 32_768));
  const parts = { channels: 2, frames: 2, sampleRate: 44_100, data };

  it.each([
    [
      "notes before and behind",
      { before: [aiffChunk("NAME", ascii("Take"))], after: [aiffChunk("ANNO", ascii("odd"))] },
    ],
    ["sound before its format", { soundFirst: true }],
    ["an offset before the samples", { offset: 6 }],
  ])("%s", async (_, more) => {
    expect(await read(aiffFile({ ...parts, ...more }))).toMatchObject({ channels: expected, sampleRate: 44_100 });
  });

  it("fewer frames than bytes are the ones that count", async () => {
    expect((await read(aiffFile({ ...parts, frames: 1 }))).channels).toEqual(expected.map((side) => side.slice(0, 1)));
  });

  it.each([
    ["0", 0],
    ["the highest number", 0xffff_ffff],
    ["just under 2^31", 0x7f00_0007],
  ])("a length left at %s is taken from the file's, and this is known", async (_, claimedBytes) => {
    const read_ = await read(aiffFile({ ...parts, frames: 0, claimedBytes }));
    expect(read_).toMatchObject({ channels: expected, lengthFromFile: true });
  });
});

describe("What of AIFF cannot be read is named", () => {
  const data = new Uint8Array(8);
  it.each([
    ["a codec", aiffFile({ kind: "ima4", frames: 4, data }), /compressed \("ima4"\)/],
    ["no channels", aiffFile({ channels: 0, frames: 4, data }), /no channels/],
    ["no rate", aiffFile({ sampleRate: 0, frames: 4, data }), /sample rate of 0 Hz/],
    ["4 bits", aiffFile({ bits: 4, frames: 4, data }), /4-bit PCM/],
    ["no frames", aiffFile({ frames: 0, data }), /no samples/],
    [
      "a length beyond the end",
      aiffFile({ frames: 48_000, data, claimedBytes: 96_008 }),
      /cut short: the last 1 s of 1 s/,
    ],
    ["no sound", aiffFile({ frames: 4, data }).subarray(0, 38), /no sound \(SSND\) chunk/],
    ["no format", concat([ascii("FORM"), big(4, 4), ascii("AIFF")]), /no format \(COMM\) chunk/],
    ["an offset beyond the end", aiffFile({ frames: 4, offset: 0, data, before: [] }).fill(255, 46, 50), /no samples/],
    ["a short format", concat([ascii("FORM"), little(0, 4), ascii("AIFF"), aiffChunk("COMM", data)]), /8 bytes/],
  ])("%s", async (_, bytes, what) => {
    await expect(read(bytes)).rejects.toThrow(what);
    await expect(read(bytes)).rejects.toMatchObject({ name: "InputError", where: "room.aif" });
  });
});
