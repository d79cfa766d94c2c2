import { existsSync, readdirSync, readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { decodeWav } from "../../src/recording/decode-wav.js";
import { levelFacts } from "../../src/recording/level-facts.js";

const folder = new URL("../../../shared/data/", import.meta.url);
const files = existsSync(folder)
  ? readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((file) => file.endsWith(".wav"))
  : [];

if (files.length === 0) it.skip("not run: measured recordings in ../shared/data are absent");

/** Decodes the plain headers of the shared files once more, by nothing but arithmetic on bytes. */
function decodeIndependently(bytes: Buffer): { sampleRate: number; channels: number; values: number[] } {
  const format = bytes.indexOf("fmt ") + 8;
  const data = bytes.indexOf("data", format) + 8;
  const [tag, channels, bits] = [0, 2, 14].map((at) => bytes.readUInt16LE(format + at)) as [number, number, number];
  const count = Math.floor((bytes.readUInt32LE(data - 4) * 8) / bits);
  const values = Array.from({ length: count }, (_, n) => {
    const at = data + (n * bits) / 8;
    return tag === 3 ? bytes.readFloatLE(at) : bytes.readIntLE(at, bits / 8) / 2 ** (bits - 1);
  });
  return { sampleRate: bytes.readUInt32LE(format + 4), channels, values };
}

it.each(files)("every sample of %s agrees with an independent decode", (file) => {
  const bytes = readFileSync(new URL(file.replaceAll("+", "%2B"), folder));
  const expected = decodeIndependently(bytes);
  const audio = decodeWav(bytes, file);
  expect(audio.sampleRate).toBe(expected.sampleRate);
  expect(audio.channels.length).toBe(expected.channels);
  expect(audio.channels[0]!.length).toBe(expected.values.length / expected.channels);
  let different = 0;
  for (const [n, value] of expected.values.entries()) {
    const ours = audio.channels[n % expected.channels]![Math.floor(n / expected.channels)];
    // 16 and 24 bits and 32-bit float fit into a 32-bit float: nothing is rounded, so nothing may differ.
    if (ours !== value) different++;
  }
  expect(different).toBe(0);
});

it.runIf(files.length > 0)(
  "no measured recording is clipped, and neither is the sweep that was played at full scale",
  () => {
    for (const file of files) {
      const { channels, sampleRate } = decodeWav(readFileSync(new URL(file.replaceAll("+", "%2B"), folder)), file);
      for (const samples of channels) {
        const facts = levelFacts({ samples, sampleRate });
        expect(facts, file).toMatchObject({ clippedSamples: 0, silent: false });
        // The played sweep reaches the highest step of 16 bits, 20 log10(32767/32768), or the last but one.
        if (file.endsWith("/sweep.wav")) expect(facts.peakDbfs).toBeGreaterThan(-0.0006);
      }
    }
  },
);
