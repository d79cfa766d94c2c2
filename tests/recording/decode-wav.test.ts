import { describe, expect, it } from "vitest";
import { decodeWav } from "../../src/recording/decode-wav.js";
import { inputErrorOf } from "./thrown-by.js";
import { ascii, chunk, concat, floatBytes, formatBytes, little, pcmBytes, wavFile } from "./wav-file.js";

const decode = (bytes: Uint8Array): readonly number[][] =>
  decodeWav(bytes, "room.wav").channels.map((samples) => Array.from(samples));

/** Ends, middle and neighbours of the ends of the range of `bits`-bit integers. */
const extremes = (bits: number): number[] => {
  const full = 2 ** (bits - 1);
  return [-full, -full + 1, -full / 2, -1, 0, 1, full / 2, full - 2, full - 1];
};

describe("a sample is its step over half the range, at every width", () => {
  for (const bits of [8, 16, 24, 32]) {
    for (const header of ["plain", "extensible"] as const) {
      it(`${bits}-bit PCM, ${header} header, reads every extreme exactly (to a 32-bit float's precision)`, () => {
        const steps = extremes(bits);
        const extensible = header === "extensible" ? { extensible: { validBits: bits } } : {};
        const file = wavFile({ bits, ...extensible, data: pcmBytes(steps, bits) });
        expect(decode(file)).toEqual([steps.map((step) => Math.fround(step / 2 ** (bits - 1)))]);
      });
    }
  }

  it("every one of the 256 and 65536 values of 8 and 16 bits is exact", () => {
    for (const bits of [8, 16]) {
      const full = 2 ** (bits - 1);
      const steps = Array.from({ length: 2 * full }, (_, n) => n - full);
      const [samples] = decodeWav(wavFile({ bits, data: pcmBytes(steps, bits) }), "all.wav").channels;
      expect(steps.every((step, n) => samples![n] === step / full)).toBe(true);
    }
  });

  it("32-bit float is read bit by bit, beyond full scale too, and 64-bit float to the nearest 32-bit float", () => {
    const values = [0, -0, 0.1, -1, 1, 3.5, -1e-30, 1.1754943508222875e-38, 1e-45].map(Math.fround);
    for (const extensible of [undefined, { validBits: 32 }]) {
      const parts = { tag: 3, bits: 32, data: floatBytes(values, 32) };
      expect(decode(wavFile(extensible ? { ...parts, extensible } : parts))).toEqual([values]);
    }
    expect(decode(wavFile({ tag: 3, bits: 64, data: floatBytes([0.1, -2, 1 / 3], 64) }))).toEqual([
      [0.1, -2, 1 / 3].map(Math.fround),
    ]);
  });
});

describe("the container may be laid out in every way that is allowed", () => {
  it("odd chunks before and after the samples, padded, do not move them", () => {
    const odd = chunk("LIST", ascii("INFOICMT!"));
    expect(odd.length % 2).toBe(0);
    const file = wavFile({ before: [odd], after: [odd], bits: 24, data: pcmBytes([1, -8_388_608, 5], 24) });
    expect(decode(file)).toEqual([[1 / 8_388_608, -1, 5 / 8_388_608]]);
  });

  it("a missing padding byte after the last chunk, odd in size, is forgiven", () => {
    const file = wavFile({ bits: 24, data: pcmBytes([-1, 1, 2], 24) });
    expect(decode(file.subarray(0, file.length - 1))).toEqual([[-1, 1, 2].map((step) => step / 8_388_608)]);
  });

  it("bytes behind the data chunk that are no chunks are passed over", () => {
    expect(decode(concat([wavFile({ data: pcmBytes([7], 16) }), [255, 255, 255, 255, 9]]))).toEqual([[7 / 32_768]]);
  });

  it("five channels come apart, with their rate", () => {
    const audio = decodeWav(
      wavFile({ channels: 5, sampleRate: 96_000, data: pcmBytes([1, 2, 3, 4, 5, -1, -2, -3, -4, -5], 16) }),
      "five.wav",
    );
    expect(audio.sampleRate).toBe(96_000);
    expect(audio.channels.map((samples) => Array.from(samples, (x) => x * 32_768))).toEqual(
      [1, 2, 3, 4, 5].map((step) => [step, -step]),
    );
  });

  it("twenty valid bits in a 24-bit container are its upper bits", () => {
    const file = wavFile({ bits: 24, extensible: { validBits: 20 }, data: pcmBytes([1 << 4, -(1 << 23)], 24) });
    expect(decode(file)).toEqual([[2 ** -19, -1]]);
    expect(decodeWav(file, "twenty.wav").encoding).toBe("20-bit PCM in 24-bit words");
  });

  it("a view into a larger buffer is read from its own beginning", () => {
    const file = wavFile({ data: pcmBytes([-5, 6], 16) });
    const larger = concat([new Uint8Array(13).fill(0x52), file, [1, 2, 3]]);
    expect(decode(larger.subarray(13, 13 + file.length))).toEqual([[-5 / 32_768, 6 / 32_768]]);
  });

  it("the encoding is named as people know it", () => {
    const data = new Uint8Array(16);
    const named = (parts: { tag?: number; bits: number }): string =>
      decodeWav(wavFile({ ...parts, data }), "").encoding;
    expect([{ bits: 8 }, { bits: 16 }, { bits: 24 }, { bits: 32 }].map(named)).toEqual(
      [8, 16, 24, 32].map((bits) => `${bits}-bit PCM`),
    );
    expect([32, 64].map((bits) => named({ tag: 3, bits }))).toEqual(["32-bit float", "64-bit float"]);
  });
});

describe("what cannot be read is named, with its file and a way out", () => {
  const data = pcmBytes([1, 2, 3, 4], 16);
  const good = wavFile({ data });
  const noFormat = concat([ascii("RIFF"), little(100, 4), ascii("WAVE"), chunk("data", data)]);
  const noData = concat([ascii("RIFF"), little(100, 4), ascii("WAVE"), chunk("fmt ", formatBytes({}))]);
  const shortFormat = concat([noData.subarray(0, 12), chunk("fmt ", new Uint8Array(14)), chunk("data", data)]);
  const extensible = formatBytes({ extensible: { validBits: 16 } });
  const withFormat = (format: Uint8Array): Uint8Array =>
    concat([noData.subarray(0, 12), chunk("fmt ", format), chunk("data", data)]);
  const cases: [string, Uint8Array, RegExp][] = [
    ["an empty file", new Uint8Array(0), /empty file/],
    ["FLAC", ascii("fLaC\0\0\0\x22 and more"), /FLAC file, not a WAV/],
    ["AIFF", ascii("FORM\0\0\0\x10AIFFCOMM"), /AIFF file, not a WAV/],
    ["AIFF-C", ascii("FORM\0\0\0\x10AIFCCOMM"), /AIFF file, not a WAV/],
    ["CAF", ascii("caff\0\x01\0\0desc"), /CAF file, not a WAV/],
    ["RF64 without a chunk", ascii("RF64\xff\xff\xff\xffWAVEds64"), /no format/],
    ["Wave64", ascii("riff\x2e\x91\xcf\x11\xa5\xd6"), /Wave64/],
    ["a ZIP archive", ascii("PK\x03\x04\x14\0\0\0\x08\0"), /ZIP archive/],
    ["big-endian RIFX", ascii("RIFX\0\0\0\0WAVE"), /RIFX/],
    ["Ogg", ascii("OggS\0\x02"), /Ogg/],
    ["MPEG-4", ascii("\0\0\0\x20ftypM4A "), /MPEG-4/],
    ["MP3 with a tag", ascii("ID3\x04\0"), /MP3/],
    ["MP3 without a tag", Uint8Array.of(0xff, 0xfb, 0x90, 0x64), /MP3/],
    ["text", ascii("not a sound at all"), /no sound file/],
    ["RIFF of another form", ascii("RIFF\0\0\0\0AVI LIST"), /no sound file/],
    ["a header of 12 bytes", good.subarray(0, 12), /no format/],
    ["no format chunk", noFormat, /no format/],
    ["no data chunk", noData, /no data chunk/],
    ["a file cut within a chunk before the data", good.subarray(0, 30), /format chunk has 10 bytes/],
    ["a short format chunk", shortFormat, /14 bytes/],
    ["a short extensible format chunk", withFormat(extensible.subarray(0, 24)), /24 bytes, 40/],
    ["an unknown sub-format", withFormat(extensible.map((byte, n) => (n === 39 ? 0 : byte))), /0xfffe/],
    ["an extensible header with a codec", withFormat(formatBytes({ tag: 2, extensible: { validBits: 16 } })), /ADPCM/],
    ["MP3 in a WAV file", wavFile({ tag: 0x55, data }), /stored as MP3/],
    ["an unheard-of codec", wavFile({ tag: 0x1234, data }), /0x1234/],
    ["no samples", wavFile({ data: new Uint8Array(0) }), /no samples/],
    ["less than one frame", wavFile({ channels: 8, data }), /no samples/],
    ["zero channels", wavFile({ channels: 0, data }), /no channels/],
    ["a rate of 0", wavFile({ sampleRate: 0, data }), /0 Hz/],
    ["a rate of 4 GHz", wavFile({ sampleRate: 4_000_000_000, data }), /4000000000 Hz/],
    ["4 bits", wavFile({ bits: 4, data }), /4-bit PCM/],
    ["40 bits", wavFile({ bits: 40, data }), /40-bit PCM/],
    ["16-bit float", wavFile({ tag: 3, data }), /16-bit float/],
    ["a block align of 0", wavFile({ blockAlign: 0, data }), /block align/],
    ["24 bits in 4 bytes", wavFile({ bits: 24, blockAlign: 4, data }), /block align/],
    ["300 channels", wavFile({ channels: 300, data: new Uint8Array(600) }), /300 channels; up to 128/],
    ["a float of 1e30", wavFile({ tag: 3, bits: 32, data: floatBytes([1e30], 32) }), /1\.0e\+30 times full scale/],
  ];
  it.each(cases)("%s", (_, bytes, what) => {
    const error = inputErrorOf(() => decodeWav(bytes, "mains-mix.wav"));
    expect(error.message).toMatch(what);
    expect(error.where).toMatch(/^mains-mix\.wav/);
    expect(error.remedy).not.toBe("");
  });

  it("a recording that is cut short says how many seconds are missing", () => {
    // 2 s of stereo 16 bit at 48 kHz promised, 0.5 s there.
    const cut = wavFile({ channels: 2, claimedBytes: 384_000, data: new Uint8Array(96_000) });
    expect(inputErrorOf(() => decodeWav(cut, "a.wav")).message).toMatch(/last 1\.5 s of 2 s are missing/);
  });

  it("a sample that is not a number is placed by channel and second", () => {
    for (const [value, shown] of [
      [NaN, "NaN"],
      [-Infinity, "-Infinity"],
    ] as const) {
      const values = new Array<number>(2 * 48_000).fill(0);
      values[2 * 12_000 + 1] = value;
      const file = wavFile({ tag: 3, bits: 32, channels: 2, data: floatBytes(values, 32) });
      const error = inputErrorOf(() => decodeWav(file, "a.wav"));
      expect(error.message).toContain(shown);
      expect(error.where).toBe("a.wav, channel 2, at 0.250 s (sample 12000)");
    }
  });
});
