import { createHash } from "node:crypto";
import { describe, expect, it } from "vitest";

import { InputError } from "../../src/errors.js";
import type { Results, Translation } from "../../src/model.js";
import { encodeWav } from "../../src/recording/encode-wav.js";
import { resultsSchema } from "../../src/schema/results.js";
import { POPULAR_MUSIC_SPREAD_DB } from "../../src/standards/popular-music.js";
import { BANDS } from "../../src/translation/bands.js";
import { seededRandom } from "../recording/seeded-random.js";
import { text } from "./in-memory-session.js";
import { onePair } from "./one-pair.js";

/** A sine in the middle of each third octave, all of one amplitude: equal power in each band, as in pink noise. */
function sines(rate: number, seconds: number, fromHz = 0): Float32Array {
  const heard = BANDS.filter(({ nominalHz }) => nominalHz >= fromHz);
  return Float32Array.from({ length: rate * seconds }, (_, n) =>
    heard.reduce((sum, { exactHz }, k) => sum + 0.03 * Math.sin((2 * Math.PI * exactHz * n) / rate + k), 0),
  );
}

async function withProgramme(programme: string, file?: Uint8Array): Promise<Results> {
  const { results } = await onePair({ translation: { programme } }, file && { [programme]: file });
  resultsSchema.parse(results);
  return results;
}

const regionsOf = ({ drift }: Translation): (number | null)[] =>
  drift.flatMap(({ regions }) => regions.map(({ driftDb }) => driftDb));

describe("A mix of one's own as programme", () => {
  it.each([
    ["mono at 44.1 kHz", 44_100, 1],
    ["stereo at 96 kHz", 96_000, 2],
  ])("weighs, masks and is heard as pink noise if its third octaves are equal, %s", async (_, rate, channels) => {
    const side = sines(rate, 4);
    const song = encodeWav(
      Array.from({ length: channels }, () => side),
      rate,
      "float32",
    );
    const own = (await withProgramme("song.wav", song)).translation!;
    const pink = (await withProgramme("pink")).translation!;
    expect(own.programme).toBe("song.wav");
    // A sine's lobe is four bins of 1.5 Hz at most, the narrowest band 5.8 Hz wide: what falls outside is under a thousandth.
    for (const [k, { levelDb }] of own.programmeBands.entries())
      expect(Math.abs(levelDb! - pink.programmeBands[k]!.levelDb!)).toBeLessThan(0.01);
    const wanted = regionsOf(pink);
    for (const [n, driftDb] of regionsOf(own).entries()) {
      expect(driftDb === null).toBe(wanted[n] === null);
      if (driftDb !== null) expect(Math.abs(driftDb - wanted[n]!)).toBeLessThan(0.01);
    }
    expect(own.guide.map(({ verdict }) => verdict)).toEqual(pink.guide.map(({ verdict }) => verdict));
    for (const [n, { toDb }] of own.levelShifts.entries())
      expect(Math.abs(toDb - pink.levelShifts[n]!.toDb)).toBeLessThan(0.01);
    const [masked, pinkMasked] = [own, pink].map(({ masking }) => masking[0]!.bands);
    for (const [n, { overNoiseDb }] of masked!.entries())
      if (overNoiseDb !== null) expect(Math.abs(overNoiseDb - pinkMasked![n]!.overNoiseDb!)).toBeLessThan(0.01);
  });

  it("rises by 1 dB from third octave to third octave if it is white noise", async () => {
    const random = seededRandom(3);
    const sides = [0, 1].map(() => Float32Array.from({ length: 20 * 48_000 }, () => random() - 0.5));
    const { programmeBands } = (await withProgramme("noise.wav", encodeWav(sides, 48_000, "pcm24"))).translation!;
    const levels = programmeBands.map(({ levelDb }) => levelDb!);
    // Each band is 10^0.1 times as wide as the one before. Of the narrowest, 5.8 Hz, 20 s and two sides are 230 independent
    // values: standard deviation 0.29 dB of a level. Three of it, of the difference from the last band.
    for (const [k, level] of levels.entries())
      expect(Math.abs(level - levels.at(-1)! + (levels.length - 1 - k))).toBeLessThan(0.9);
  });

  it("stands among the files with its hash and what it is", async () => {
    const song = encodeWav([sines(48_000, 3)], 48_000, "pcm16");
    const { provenance } = await withProgramme("song.wav", song);
    expect(provenance.files.find(({ file }) => file === "song.wav")).toEqual({
      ...{ file: "song.wav", use: "programme", bytes: song.length, encoding: "16-bit PCM" },
      ...{ sha256: createHash("sha256").update(song).digest("hex"), sampleRate: 48_000, channels: 1, durationS: 3 },
    });
  });

  it("lets nothing be judged where it holds nothing", async () => {
    const song = encodeWav([sines(48_000, 4, 200)], 48_000, "pcm24");
    const { trust } = (await withProgramme("thin.wav", song)).translation!;
    for (const { nominalHz, grade, reasons } of trust[0]!.bands) {
      if (nominalHz > 100) continue;
      expect(grade).toBe("blind");
      expect(reasons.map(({ code }) => code)).toContain("audibility");
    }
  });

  it("leaves the range where nobody controls a band what it is among recordings of popular music, and says so", async () => {
    const song = encodeWav([sines(48_000, 4, 200)], 48_000, "pcm24");
    const { drift, uncontrolledRange } = (await withProgramme("thin.wav", song)).translation!;
    const [first] = drift[0]!.bands;
    expect(first).toMatchObject({ controlled: false, reason: "blind" });
    expect(first!.rangeDb).toEqual([-POPULAR_MUSIC_SPREAD_DB[0]!, POPULAR_MUSIC_SPREAD_DB[0]!]);
    expect(uncontrolledRange.source).toContain("popular music, whatever the programme");
  });
});

describe("A programme that cannot be used is refused, with file and field:", () => {
  const side = sines(48_000, 3);
  const broken = (): Uint8Array => {
    const file = encodeWav([side], 48_000, "float32");
    new DataView(file.buffer, file.byteOffset).setFloat32(file.length - 4 * 1000, NaN, true);
    return file;
  };
  it.each<[string, () => Uint8Array, RegExp]>([
    ["silence", () => encodeWav([side.map(() => 0)], 48_000, "pcm16"), /silent/],
    ["the last bit's noise", () => encodeWav([side.map((v) => 1e-4 * v)], 48_000, "pcm24"), /silent/],
    ["words", () => text("la la la"), /no sound file; a mix is read from WAV, FLAC, AIFF/],
    ["an empty file", () => text(""), /empty file/],
    ["a file cut short", () => encodeWav([side], 48_000, "pcm16").subarray(0, 99_999), /cut short/],
    ["a sample that is no number", broken, /sample of the mix is not a number/],
    ["three channels", () => encodeWav([side, side, side], 48_000, "pcm16"), /3 channels/],
    [
      "a rate that ends below 16 kHz",
      () => encodeWav([side], 32_000, "pcm16"),
      /32000 Hz, so it holds nothing of .*16 kHz/,
    ],
    ["a second and a half", () => encodeWav([side.subarray(0, 72_000)], 48_000, "pcm16"), /only 1\.50 s/],
  ])("%s", async (_, file, says) => {
    const error = await withProgramme("song.wav", file()).then(
      () => null,
      (reason: unknown) => reason,
    );
    expect(error).toBeInstanceOf(InputError);
    const { message, where } = error as InputError;
    expect(message).toMatch(says);
    expect(where).toMatch(/^session\.json, translation\.programme: song\.wav/);
  });

  it("a name that is no programme and no WAV file", async () => {
    await expect(withProgramme("polka")).rejects.toThrow(/no programme "polka"/);
    await expect(withProgramme("none.wav")).rejects.toThrow(InputError);
  });
});
