import { describe, expect, it } from "vitest";

import { rf64File } from "../sound-files.js";
import { readFromMemory } from "../read-from-memory.js";
import { ascii, chunk, concat, formatBytes, little, pcmBytes, wavFile } from "../wav-file.js";

const steps = [1, -2, 3, 32_767, -32_768];
const data = pcmBytes(steps, 16);
const samples = steps.map((step) => step / 32_768);

/** What recorders and workstations put around the samples. */
const bext = chunk("bext", concat([ascii("Take 3, mains left"), new Uint8Array(584), ascii("A=PCM,F=48000\r\n")]));
const ixml = chunk("iXML", ascii('<?xml version="1.0"?><BWFXML><SCENE>1</SCENE></BWFXML>'));
const list = chunk("LIST", ascii("INFOISFT\x05\0\0\0desk\0"));
const cue = chunk("cue ", concat([little(1, 4), little(1, 4), little(2, 4), ascii("data"), new Uint8Array(12)]));

/** A chunk of odd size whose writer forgot the padding byte. */
const unpadded = (id: string, content: string): Uint8Array =>
  concat([ascii(id), little(content.length, 4), ascii(content)]);

describe("Notes of recorders and workstations", () => {
  it.each([
    ["before the samples", { before: [bext, ixml, list, cue], data }],
    ["behind the samples", { data, after: [bext, ixml, list, cue] }],
    ["before and behind", { before: [bext, cue], data, after: [ixml, list] }],
  ])("%s do not move them", async (_, parts) => {
    expect((await readFromMemory(wavFile(parts))).channels).toEqual([samples]);
  });

  it("of odd size are passed over with their padding byte and without it", async () => {
    const padded = [chunk("iXML", ascii("<a/>?")), chunk("LIST", ascii("INFOx"))];
    const bare = [unpadded("iXML", "<a/>?"), unpadded("LIST", "INFOx")];
    for (const before of [padded, bare])
      expect((await readFromMemory(wavFile({ before, data }))).channels).toEqual([samples]);
  });

  it("behind an odd number of samples without a padding byte are no samples", async () => {
    const odd = pcmBytes([5, -6, 7], 24);
    const file = wavFile({ bits: 24, data: odd });
    const bare = concat([file.subarray(0, file.length - 1), unpadded("LIST", "INFOabc")]);
    expect((await readFromMemory(bare)).channels).toEqual([[5, -6, 7].map((step) => step / 2 ** 23)]);
  });
});

describe("A length that a recorder left for later", () => {
  it.each([
    ["0", 0],
    ["the highest number", 0xffff_ffff],
    ["just under 2^31, as some programs write it into a pipe", 0x7fff_f000],
  ])("as %s is taken from the file's, and this is known", async (_, claimedBytes) => {
    const read = await readFromMemory(wavFile({ before: [bext], data, claimedBytes }));
    expect(read.channels).toEqual([samples]);
    expect(read.lengthFromFile).toBe(true);
  });

  it("leaves out the bytes of a frame that was not finished", async () => {
    const cut = wavFile({ channels: 2, data: pcmBytes([1, 2, 3, 4, 5], 16), claimedBytes: 0 });
    expect((await readFromMemory(cut)).channels).toEqual([
      [1, 3].map((step) => step / 32_768),
      [2, 4].map((step) => step / 32_768),
    ]);
  });

  it("is not supposed where the length is right, or where notes alone follow a length of 0", async () => {
    expect((await readFromMemory(wavFile({ data }))).lengthFromFile).toBe(false);
    const empty = wavFile({ data: new Uint8Array(0), after: [list, cue] });
    await expect(readFromMemory(empty)).rejects.toThrow(/no samples/);
  });

  it.each([
    ["half of what came", 48_000],
    ["a thousand bytes", 1000],
    ["an odd number of bytes", 47_999],
  ])("and wrote before the end, as %s, is taken from the file's", async (_, claimedBytes) => {
    const sounding = Array.from({ length: 48_000 }, (_, n) => ((n * 7919) % 60_000) - 30_000);
    const read = await readFromMemory(wavFile({ data: pcmBytes(sounding, 16), claimedBytes }));
    expect(read).toMatchObject({ frames: 48_000, lengthFromFile: true });
    expect(read.channels).toEqual([sounding.map((step) => step / 32_768)]);
    // Silence behind the stated end is sound as well.
    const silent = Array.from({ length: 48_000 }, (_, n) => (n < 300 ? 1000 : 0));
    const quiet = await readFromMemory(wavFile({ data: pcmBytes(silent, 16), claimedBytes: 1000 }));
    expect(quiet).toMatchObject({ frames: 48_000, lengthFromFile: true });
  });

  it("is not supposed where notes follow that nobody knows, or a block filled up with zeros", async () => {
    const notes = chunk("xyzW", new Uint8Array(200_000).fill(7));
    expect(await readFromMemory(wavFile({ data, after: [notes] }))).toMatchObject({ frames: 5, lengthFromFile: false });
    const filled = concat([wavFile({ data }), new Uint8Array(32_768)]);
    expect(await readFromMemory(filled)).toMatchObject({ frames: 5, lengthFromFile: false });
  });

  it("is not supposed of a file that lost its end on the way", async () => {
    await expect(readFromMemory(wavFile({ data, claimedBytes: 3_000_000_000 }))).rejects.toThrow(/cut short/);
  });
});

describe("A file in the form for more than 4 GB", () => {
  const form = formatBytes({ channels: 1, bits: 16 });

  it.each(["RF64", "BW64"] as const)("%s has its length in another place", async (name) => {
    const read = await readFromMemory(rf64File({ form: name, formatBytes: form, data, after: [ixml, list] }));
    expect(read).toMatchObject({ channels: [samples], frames: 5, lengthFromFile: false });
  });

  it.each([
    ["0", little(0, 8)],
    ["the highest number", new Uint8Array(8).fill(255)],
  ])("whose recorder left %s there is read as far as it goes", async (_, dataSize) => {
    const read = await readFromMemory(rf64File({ formatBytes: form, data, dataSize }));
    expect(read).toMatchObject({ channels: [samples], lengthFromFile: true });
  });

  it("that is cut short is told apart from one that was never finished", async () => {
    const cut = rf64File({ formatBytes: form, data, dataSize: little(6e9, 8) });
    await expect(readFromMemory(cut)).rejects.toThrow(/cut short/);
  });
});

describe("What would take for ever or more memory than there is", () => {
  it("a file of nothing but empty parts is refused", async () => {
    const parts = Array.from({ length: 10_000 }, () => chunk("JUNK", new Uint8Array(0)));
    await expect(readFromMemory(wavFile({ before: parts, data }))).rejects.toThrow(/more than 4096 parts/);
  });

  it("four billion claimed frames of a short file are refused by its length", async () => {
    const file = wavFile({ channels: 1, bits: 8, data: new Uint8Array(100), claimedBytes: 0xf000_0000 });
    await expect(readFromMemory(file)).rejects.toThrow(/cut short/);
  });
});
