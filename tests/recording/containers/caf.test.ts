import { describe, expect, it } from "vitest";

import { readFromMemory } from "../read-from-memory.js";
import { big, cafChunk, cafFile } from "../sound-files.js";
import { ascii, concat, floatBytes, pcmBytes } from "../wav-file.js";

const LITTLE = 2;
const FLOAT = 1;
const read = async (bytes: Uint8Array): ReturnType<typeof readFromMemory> => readFromMemory(bytes, "room.caf");

const extremes = (bits: number): number[] => {
  const full = 2 ** (bits - 1);
  return [-full, -full + 1, -1, 0, 1, full / 2, full - 1];
};

describe("A sample of CAF is its step over half the range", () => {
  it.each([16, 24, 32])("at %i bits in either order of bytes, at every extreme", async (bits) => {
    const steps = extremes(bits);
    const expected = [steps.map((step) => Math.fround(step / 2 ** (bits - 1)))];
    const data = pcmBytes(steps, bits);
    expect((await read(cafFile({ bits, flags: LITTLE, data }))).channels).toEqual(expected);
    const turned = concat(steps.map((_, n) => data.slice((n * bits) / 8, ((n + 1) * bits) / 8).reverse()));
    expect((await read(cafFile({ bits, data: turned }))).channels).toEqual(expected);
  });

  it("at 8 bits, with its sign", async () => {
    expect((await read(cafFile({ bits: 8, data: Uint8Array.of(0x80, 0, 0x7f) }))).channels).toEqual([
      [-1, 0, 127 / 128],
    ]);
  });

  it("and a float as it stands, of 64 bits to the nearest of 32", async () => {
    const values = [0.1, -2, 1 / 3];
    const file = cafFile({ bits: 64, flags: FLOAT + LITTLE, data: floatBytes(values, 64) });
    expect(await read(file)).toMatchObject({ channels: [values.map(Math.fround)], encoding: "64-bit float" });
  });
});

describe("CAF may be laid out in every way that is allowed", () => {
  const data = pcmBytes([1, 2, 3, -4], 16);
  const parts = { channels: 2, flags: LITTLE, data, sampleRate: 96_000 };
  const expected = [
    [1, 3],
    [2, -4],
  ].map((steps) => steps.map((step) => step / 32_768));

  it("with other parts before and behind, odd ones without padding", async () => {
    const note = cafChunk("info", ascii("odd"));
    const file = cafFile({ ...parts, before: [note, cafChunk("free", new Uint8Array(33))], after: [note] });
    expect(await read(file)).toMatchObject({ channels: expected, sampleRate: 96_000, lengthFromFile: false });
  });

  it("to the end of the file where its recorder did not finish, and this is known", async () => {
    const file = cafFile({ ...parts, claimed: new Uint8Array(8).fill(255) });
    expect(await read(file)).toMatchObject({ channels: expected, lengthFromFile: true });
  });
});

describe("What of CAF cannot be read is named", () => {
  const data = new Uint8Array(8);
  it.each([
    ["a codec", cafFile({ codec: "aac ", data }), /compressed \("aac "\)/],
    ["a lossless codec", cafFile({ codec: "alac", data }), /compressed \("alac"\)/],
    ["no channels", cafFile({ channels: 0, bytesPerPacket: 2, data }), /no channels/],
    ["four billion channels", cafFile({ channels: 0xffff_ffff, bytesPerPacket: 2, data }), /4294967295 channels/],
    ["a rate that is no number", cafFile({ sampleRate: NaN, data }), /sample rate that is no number/],
    ["a frame of another size", cafFile({ bytesPerPacket: 4, data }), /cannot take 4 bytes/],
    ["no samples", cafFile({ data: new Uint8Array(0) }), /no samples/],
    ["a length beyond the end", cafFile({ data, claimed: big(2 ** 40, 8) }), /cut short/],
    ["a short description", concat([ascii("caff\0\x01\0\0"), cafChunk("desc", data)]), /8 bytes, 32/],
    ["no description", ascii("caff\0\x01\0\0"), /no format \(desc\) chunk/],
    ["no data", cafFile({ data }).subarray(0, 52), /no data chunk/],
  ])("%s", async (_, bytes, what) => {
    await expect(read(bytes)).rejects.toThrow(what);
    await expect(read(bytes)).rejects.toMatchObject({ name: "InputError", where: "room.caf" });
  });
});
