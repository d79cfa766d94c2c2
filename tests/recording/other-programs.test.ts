import { existsSync, readdirSync, rmSync } from "node:fs";
import { fileURLToPath } from "node:url";

import { describe, expect, it } from "vitest";

import { openSound } from "../../src/files/sound-file.js";
import * as programs from "./other-programs.js";

/**
 * Every format that other programs write, read by them and by us, sample by sample.
 *
 * `npm test` takes stereo of a tenth of a second. With CARRYWELL_FORMATS=all: one to eight channels, lengths from one frame to
 * twenty seconds, and sox as a second reader.
 */
const isFull = process.env.CARRYWELL_FORMATS === "all";
const hasAll = ["sox", "ffmpeg"].every(programs.isInstalled);
const hasFlac = programs.isInstalled("flac");
if (!hasAll) it.skip("not run: sox and ffmpeg, which write and read the formats without us, are not installed");
if (!hasFlac) it.skip("not run: the encoder flac, which writes blocks of every length, is not installed");

interface Ours {
  readonly channels: number;
  /** Frame after frame. */
  readonly samples: Float32Array;
  readonly lengthFromFile: boolean;
}

async function readByUs(file: string): Promise<Ours> {
  const sound = await openSound(file, "x");
  try {
    const samples = new Float32Array(sound.frames * sound.channels);
    // In stretches that fall on no frame of FLAC.
    for (let from = 0; from < sound.frames; from += 5003) {
      for (const [channel, part] of (await sound.read(from, 5003)).entries()) {
        for (let n = 0; n < part.length; n++) samples[(from + n) * sound.channels + channel] = part[n]!;
      }
    }
    return { channels: sound.channels, samples, lengthFromFile: sound.lengthFromFile };
  } finally {
    await sound.close();
  }
}

/** How many samples are not the reference rounded to a 32-bit float, which is what we hold samples in. */
function different(ours: Float32Array, reference: Float64Array): number | string {
  if (ours.length !== reference.length) return `${ours.length} samples, not ${reference.length}`;
  let count = 0;
  for (let n = 0; n < ours.length; n++) if (ours[n] !== Math.fround(reference[n]!)) count++;
  return count;
}

/** How many samples differ, where the reference computes in 32-bit integers and clips at their end. */
function differentToSox(ours: Float32Array, reference: Float64Array): number | string {
  if (ours.length !== reference.length) return `${ours.length} samples, not ${reference.length}`;
  let count = 0;
  // Half a step of 32 bits, and half a unit in the last place of a 32-bit float below 1.
  for (let n = 0; n < ours.length; n++) if (Math.abs(ours[n]! - reference[n]!) > 2 ** -31 + 2 ** -25) count++;
  return count;
}

const compared = { files: 0, samples: 0 };

/** @param complete - files of the same sound for the other programs, where they cannot read the ones we read */
async function compare(files: readonly string[], complete = files): Promise<void> {
  const references = programs.readByFfmpeg(complete);
  const unlike: Record<string, unknown> = {};
  for (const [n, file] of files.entries()) {
    const name = file.replace(/^.*\//, "");
    const { samples } = await readByUs(file);
    const count = different(samples, references[n]!);
    if (count !== 0) unlike[name] = count;
    compared.files++;
    compared.samples += samples.length;
    // sox cannot read what ffmpeg calls RF64 or writes into a pipe, nor floats in AIFF-C of some kinds.
    if (!isFull || /rf64|pipe|ffmpeg.*\.(aiff|caf)$|flac-block/.test(name)) continue;
    const toSox = differentToSox(samples, programs.readBySox(file));
    if (toSox !== 0) unlike[`${name} (sox)`] = toSox;
  }
  expect(unlike).toEqual({});
}

const sounds: programs.Sound[] = isFull
  ? [1, 2, 6, 8].flatMap((channels) =>
      [1, 2, 17, 4096, 4097, 9000, 100_001].map((frames) => ({ channels, frames, sampleRate: 48_000 })),
    )
  : [{ channels: 2, frames: 4801, sampleRate: 48_000 }];
const rates = isFull ? [8000, 44_100, 96_000, 192_000] : [];

describe.runIf(hasAll)("Every sample is the one that another program reads", () => {
  for (const sound of [...sounds, ...rates.map((sampleRate) => ({ channels: 1, frames: 20_000, sampleRate }))]) {
    const { channels, frames, sampleRate } = sound;
    it(`${channels} channel(s), ${frames} frames at ${sampleRate} Hz`, { timeout: 600_000 }, async () => {
      const master = programs.master(sound);
      try {
        await compare(programs.writtenByFfmpeg(master));
        await compare(programs.writtenBySox(master));
        if (!hasFlac) return;
        const { files, from } = programs.writtenByFlac(master);
        await compare(
          files,
          files.map(() => from),
        );
      } finally {
        rmSync(master.folder, { recursive: true });
      }
    });
  }

  it("where the writer could not fill in the length, too, and it is said", { timeout: 600_000 }, async () => {
    const master = programs.master({ channels: 2, frames: 9001, sampleRate: 48_000 });
    try {
      const written = programs.writtenIntoPipes(master);
      const files = written.map(({ file }) => file);
      await compare(
        files,
        written.map(({ complete }) => complete),
      );
      for (const file of files) expect((await readByUs(file)).lengthFromFile, file).toBe(true);
    } finally {
      rmSync(master.folder, { recursive: true });
    }
  });

  // Its WAV files are held against a decoder of a few lines in another test.
  const formats = isFull ? /\.(wav|flac)$/ : /\.flac$/;
  const shared = fileURLToPath(new URL("../../../shared/data/", import.meta.url));
  const measured = existsSync(shared)
    ? readdirSync(shared, { recursive: true, encoding: "utf8" }).filter((file) => formats.test(file))
    : [];
  if (measured.length === 0) it.skip("not run: measured recordings in ../shared/data are absent");
  it.runIf(measured.length > 0)("in recordings and music from elsewhere", { timeout: 600_000 }, async () => {
    const master = programs.master({ channels: 1, frames: 1, sampleRate: 48_000 });
    try {
      for (const [n, file] of measured.entries()) {
        const copy = `${master.folder}/${n}-${file.replace(/^.*\//, "")}`;
        programs.run("cp", [`${shared}/${file}`, copy]);
        await compare([copy]);
      }
    } finally {
      rmSync(master.folder, { recursive: true });
    }
  });

  it("in so many files as are counted here", () => {
    console.log(`compared: ${compared.files} files, ${compared.samples} samples`);
    expect(compared.files).toBeGreaterThan(60);
  });
});
