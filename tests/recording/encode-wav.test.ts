import { expect, it } from "vitest";
import { decodeWav } from "../../src/recording/decode-wav.js";
import { encodeWav } from "../../src/recording/encode-wav.js";
import { seededRandom } from "./seeded-random.js";

const noise = (seed: number, length: number, peak: number): Float32Array => {
  const random = seededRandom(seed);
  return Float32Array.from({ length }, () => peak * (2 * random() - 1));
};

it("float recordings come back bit by bit, beyond full scale too, on any number of channels", () => {
  for (const count of [1, 2, 5]) {
    const channels = Array.from({ length: count }, (_, n) => noise(n, 1001, 3));
    const audio = decodeWav(encodeWav(channels, 96_000, "float32"), "x.wav");
    expect(audio).toEqual({ sampleRate: 96_000, channels, encoding: "32-bit float" });
  }
});

it("PCM recordings come back within half a step", () => {
  for (const [format, bits] of [
    ["pcm16", 16],
    ["pcm24", 24],
  ] as const) {
    const step = 2 ** (1 - bits);
    const sent = [noise(1, 999, 1 - step), noise(2, 999, 1 - step)];
    const audio = decodeWav(encodeWav(sent, 48_000, format), "x.wav");
    expect(audio.encoding).toBe(`${bits}-bit PCM`);
    // Near values of 24 significant bits differ exactly in doubles: half a step and not a hair more.
    const worst = Math.max(
      ...sent.flatMap((samples, c) => Array.from(samples, (x, n) => Math.abs(x - audio.channels[c]![n]!))),
    );
    expect(worst).toBeLessThanOrEqual(step / 2);
    expect(worst).toBeGreaterThan(0.45 * step);
  }
});

it("PCM takes the ends of the range, rounds to the nearest step and clips what lies beyond", () => {
  const sent = Float64Array.of(-1, -1.5, 1, 2, 0.4 / 32_768, 0.6 / 32_768, -0.6 / 32_768);
  const [samples] = decodeWav(encodeWav([sent], 48_000, "pcm16"), "x.wav").channels;
  expect(Array.from(samples!, (x) => x * 32_768)).toEqual([-32_768, -32_768, 32_767, 32_767, 0, 1, -1]);
  const [fine] = decodeWav(encodeWav([sent], 48_000, "pcm24"), "x.wav").channels;
  expect(Array.from(fine!.slice(0, 4), (x) => x * 8_388_608)).toEqual([-8_388_608, -8_388_608, 8_388_607, 8_388_607]);
});

it("the headers are what the format asks for, byte by byte", () => {
  const hex = (bytes: Uint8Array): string => Buffer.from(bytes).toString("hex");
  expect(hex(encodeWav([Float32Array.of(0.5, -1)], 48_000, "pcm16"))).toBe(
    hex(
      Buffer.from(
        "RIFF(\0\0\0WAVEfmt \x10\0\0\0\x01\0\x01\0\x80\xbb\0\0\0\x77\x01\0\x02\0\x10\0data\x04\0\0\0\0\x40\0\x80",
        "latin1",
      ),
    ),
  );
  // One 24-bit sample: an odd data chunk with its padding byte, which the size of the chunk does not count.
  const odd = encodeWav([Float32Array.of(-1)], 48_000, "pcm24");
  expect(odd.length).toBe(48);
  expect(hex(odd.subarray(4, 8))).toBe("28000000");
  expect(hex(odd.subarray(36))).toBe("646174610300000000008000");
  const float = encodeWav([Float32Array.of(1), Float32Array.of(-2)], 44_100, "float32");
  expect(hex(float.subarray(12))).toBe(
    hex(
      Buffer.from(
        "fmt \x12\0\0\0\x03\0\x02\0\x44\xac\0\0\x20\x62\x05\0\x08\0\x20\0\0\0fact\x04\0\0\0\x01\0\0\0data\x08\0\0\0\0\0\x80\x3f\0\0\0\xc0",
        "latin1",
      ),
    ),
  );
});

it("channels of different length, none at all, a sample that is no number and a broken rate are breaches", () => {
  expect(() => encodeWav([], 48_000, "pcm16")).toThrow(RangeError);
  expect(() => encodeWav([new Float32Array(2), new Float32Array(3)], 48_000, "pcm16")).toThrow(/2 and 3 samples/);
  expect(() => encodeWav([Float32Array.of(0, NaN)], 48_000, "float32")).toThrow(/sample 1 is NaN/);
  expect(() => encodeWav([new Float32Array(2)], 44_100.5, "pcm24")).toThrow(RangeError);
});
