import { describe, expect, it } from "vitest";

import { soundReader } from "../../../src/recording/sound-reader.js";
import { readFromMemory, sourceOf } from "../read-from-memory.js";
import { seededRandom } from "../seeded-random.js";
import { flacFile, flacParts } from "../sound-files.js";
import { concat } from "../wav-file.js";

const read = async (bytes: Uint8Array): ReturnType<typeof readFromMemory> => readFromMemory(bytes, "room.flac");

/** Noise over the whole range, its ends first. */
function steps(count: number, bits: number, seed = 1): number[] {
  const random = seededRandom(seed);
  const full = 2 ** (bits - 1);
  const noise = Array.from({ length: count }, () => Math.floor(2 * full * random()) - full);
  return [-full, full - 1, -full + 1, -1, 0, 1, ...noise].slice(0, count);
}

describe("A sample of FLAC is its step over half the range", () => {
  it.each([8, 16, 24] as const)("at %i bits, exactly", async (bits) => {
    const channels = [steps(500, bits), steps(500, bits, 2)];
    const read_ = await read(flacFile({ channels, bits, block: 192 }));
    expect(read_.channels).toEqual(channels.map((side) => side.map((step) => step / 2 ** (bits - 1))));
    expect(read_).toMatchObject({ encoding: `${bits}-bit FLAC`, sampleRate: 48_000, lengthFromFile: false });
  });

  it("every one of the 65536 values of 16 bits", async () => {
    const all = Array.from({ length: 65_536 }, (_, n) => n - 32_768);
    const [samples] = (await read(flacFile({ channels: [all], bits: 16, block: 4096 }))).channels;
    expect(samples!.every((value, n) => value === all[n]! / 32_768)).toBe(true);
  });

  it("in a last frame of one sample too, behind notes and pictures", async () => {
    const channels = [steps(4097, 16)];
    const file = flacFile({ channels, bits: 16, block: 4096, notes: new Uint8Array(100_000).fill(0xff) });
    expect((await read(file)).channels).toEqual([channels[0]!.map((step) => step / 32_768)]);
  });
});

describe("A FLAC file is read from any place", () => {
  const channels = [steps(3000, 24), steps(3000, 24, 9)];
  const expected = channels.map((side) => side.map((step) => step / 2 ** 23));

  it("the same samples, forwards and backwards", async () => {
    const sound = await soundReader(sourceOf(flacFile({ channels, bits: 24, block: 100 })), "x");
    for (const [from, count] of [
      [0, 10],
      [2950, 100],
      [99, 2],
      [100, 100],
      [1, 2998],
      [0, 3000],
      [3000, 5],
    ] as const) {
      const part = await sound.read(from, count);
      expect(part.map((side) => Array.from(side))).toEqual(expected.map((side) => side.slice(from, from + count)));
    }
    const [right] = await sound.read(150, 3, [1]);
    expect(Array.from(right!)).toEqual(expected[1]!.slice(150, 153));
    await sound.close();
  });
});

describe("A FLAC file whose recorder stopped", () => {
  const { head, frames } = flacParts({ channels: [steps(1000, 16)], bits: 16, block: 200, claimedSamples: 0 });

  it("before it wrote the length is read as far as it goes, without the part of a frame at its end", async () => {
    const whole = await read(concat([head, ...frames]));
    expect(whole).toMatchObject({ frames: 1000, lengthFromFile: true });
    const cut = await read(concat([head, ...frames]).subarray(0, -50));
    expect(cut).toMatchObject({ frames: 800, lengthFromFile: true });
    expect(cut.channels[0]).toEqual(whole.channels[0]!.slice(0, 800));
  });
});

describe("A damaged FLAC file is refused, never read with a gap", () => {
  const parts = { channels: [steps(48_000, 16)], bits: 16, block: 4800 } as const;
  const { head, frames } = flacParts(parts);
  const turned = (frame: Uint8Array): Uint8Array => frame.map((byte, n) => (n === 100 ? byte ^ 1 : byte));

  it.each([
    [
      "one bit turned",
      concat([head, ...frames.map((frame, n) => (n === 3 ? turned(frame) : frame))]),
      /damaged at 0\.30 s/,
    ],
    ["a frame missing", concat([head, ...frames.filter((_, n) => n !== 5)]), /damaged at 0\.50 s/],
    [
      "a frame twice",
      concat([head, ...frames.flatMap((frame, n) => (n === 2 ? [frame, frame] : [frame]))]),
      /damaged at 0\.30 s/,
    ],
    ["the end missing", concat([head, ...frames.slice(0, 4)]), /cut short: it holds 0\.40 s of 1\.00 s/],
    ["cut within a frame", concat([head, ...frames]).subarray(0, -10), /damaged at 0\.90 s/],
    ["more than it claims", flacFile({ ...parts, claimedSamples: 24_000 }), /claims 0\.50 s, and 1\.00 s/],
    ["nothing but a header", head, /cut short: it holds 0\.00 s/],
    ["a header cut off", head.subarray(0, 20), /does not begin with a description/],
    ["no samples, as it says", flacParts({ ...parts, channels: [[]], claimedSamples: 0 }).head, /no samples/],
    ["a rate of 0", flacFile({ ...parts, sampleRate: 0 }), /sample rate of 0/],
  ])("%s", async (_, bytes, what) => {
    await expect(read(bytes)).rejects.toThrow(what);
    await expect(read(bytes)).rejects.toMatchObject({ name: "InputError", where: "room.flac" });
  });

  it("and one whose blocks are longer than the decoder takes", async () => {
    const long = flacFile({ channels: Array.from({ length: 8 }, () => steps(60_000, 16)), bits: 16, block: 40_000 });
    await expect(read(long)).rejects.toThrow(/blocks of 40000 samples/);
  });

  it("and one of 32 bits, which the decoder cannot return exactly", async () => {
    const wide = flacFile(parts).slice();
    // 5 bits of bits less one, over bytes 12 and 13 of the description.
    wide[20] = wide[20]! | 1;
    wide[21] = wide[21]! | 0xf0;
    await expect(read(wide)).rejects.toThrow(/32-bit samples, which are not read/);
  });
});
