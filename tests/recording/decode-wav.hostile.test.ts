import { expect, it } from "vitest";
import { InputError } from "../../src/errors.js";
import { decodeWav } from "../../src/recording/decode-wav.js";
import { seededRandom } from "./seeded-random.js";
import { ascii, chunk, floatBytes, pcmBytes, wavFile } from "./wav-file.js";

const seeds = [
  wavFile({ bits: 8, data: pcmBytes([1, -128, 127, 0, 3], 8) }),
  wavFile({ channels: 2, data: pcmBytes([1, 2, 3, -4, 5, 6], 16), after: [chunk("LIST", ascii("INFOx"))] }),
  wavFile({ bits: 24, extensible: { validBits: 24 }, data: pcmBytes([1, -8_388_608, 3], 24) }),
  wavFile({ tag: 3, bits: 32, before: [chunk("fact", Uint8Array.of(2, 0, 0, 0))], data: floatBytes([0.5, -1], 32) }),
  wavFile({ tag: 3, bits: 64, extensible: { validBits: 64 }, data: floatBytes([0.5, -1, 2], 64) }),
];

/** What became of a file; anything but these two ends is a fault of the program and passes through. */
function endOf(bytes: Uint8Array): "decoded" | "refused" {
  try {
    const { channels, sampleRate } = decodeWav(bytes, "hostile.wav");
    expect(channels.length).toBeGreaterThan(0);
    expect(sampleRate).toBeGreaterThan(0);
    for (const samples of channels) {
      expect(samples.length).toBe(channels[0]!.length);
      expect(samples.length).toBeGreaterThan(0);
      expect(samples.every((value) => Number.isFinite(value))).toBe(true);
    }
    return "decoded";
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    expect(error.message).not.toMatch(/undefined|NaN s|\[object/);
    expect(error.where).toMatch(/^hostile\.wav/);
    return "refused";
  }
}

it("a recording cut at any byte is decoded or refused with reason", () => {
  for (const file of seeds) {
    expect(endOf(file)).toBe("decoded");
    for (let length = 0; length < file.length; length++) endOf(file.subarray(0, length));
  }
});

it("ten thousand damaged recordings are decoded or refused with reason, never anything else", () => {
  const random = seededRandom(20_260_514);
  const below = (n: number): number => Math.floor(random() * n);
  const nasty = [0, 1, 2, 3, 0x7f, 0x80, 0xfe, 0xff];
  const ends = { decoded: 0, refused: 0 };
  for (let round = 0; round < 10_000; round++) {
    let bytes = seeds[below(seeds.length)]!.slice();
    for (let change = below(5); change >= 0 && bytes.length > 0; change--) {
      // Headers are where damage does something, so most changes fall there.
      const at = below(random() < 0.8 ? Math.min(bytes.length, 80) : bytes.length);
      const kind = below(10);
      if (kind < 5) bytes[at] = below(256);
      else if (kind < 8) bytes[at] = nasty[below(nasty.length)]!;
      else if (kind === 8) bytes = bytes.slice(0, bytes.length - below(bytes.length));
      else bytes.copyWithin(at, below(bytes.length));
    }
    ends[endOf(bytes)]++;
  }
  // Both ends must occur often, or the damage was too mild or too wild to say anything.
  expect(ends.decoded).toBeGreaterThan(500);
  expect(ends.refused).toBeGreaterThan(500);
});

it("files of random bytes behind a valid beginning are decoded or refused with reason", () => {
  const random = seededRandom(7);
  for (let round = 0; round < 2000; round++) {
    const bytes = Uint8Array.from({ length: 12 + Math.floor(random() * 120) }, () => Math.floor(random() * 256));
    bytes.set(ascii("RIFF"));
    bytes.set(ascii("WAVE"), 8);
    if (random() < 0.7) bytes.set(seeds[round % seeds.length]!.subarray(12, 12 + Math.min(36, bytes.length - 12)), 12);
    endOf(bytes);
  }
});
