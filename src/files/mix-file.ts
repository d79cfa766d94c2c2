import { stat } from "node:fs/promises";
import { basename } from "node:path";

import { RATE_CHANGE_LIBRARY, rateChange } from "../dsp/sample-rate.js";
import { InputError } from "../errors.js";
import { aboutMix } from "../recording/about-mix.js";
import { openSound } from "./sound-file.js";
import { createWave } from "./wave-file.js";

/** A mix that is heard a stretch at a time. */
export interface MixFile {
  readonly path: string;
  readonly name: string;
  readonly frames: number;
  readonly sampleRate: number;
  /** 1 or 2. */
  readonly channels: number;
  readonly encoding: string;
}

const SHORTEST_S = 1;
const LONG_S = 3600;
/** So many frames at a time: a second or less, and no more than the change of rate takes. */
const STRETCH = 2 ** 15;

/**
 * Looks at a mix without hearing it.
 *
 * @throws {InputError} if it is not a sound file with one or two channels and at least a second long
 */
export async function findMix(path: string): Promise<MixFile> {
  const name = basename(path);
  const entry = await stat(path).catch(() => null);
  if (!entry?.isFile()) {
    throw new InputError(entry ? "The mix is a folder." : "There is no such mix.", {
      where: path,
      remedy: "give the name of a WAV, FLAC, AIFF or CAF file",
    });
  }
  const reader = await openMix(path, name);
  try {
    const { frames, channels, sampleRate, encoding } = reader;
    if (channels > 2) {
      throw new InputError(`The mix has ${channels} channels; one or two can be rendered.`, {
        where: name,
        remedy: "export a stereo mix",
      });
    }
    if (frames < SHORTEST_S * sampleRate) {
      throw new InputError(`The mix lasts only ${(frames / sampleRate).toFixed(2)} s.`, {
        where: name,
        remedy: "give one of a second or more: its loudness cannot be told otherwise",
      });
    }
    return { path, name, frames, sampleRate, channels, encoding };
  } finally {
    await reader.close();
  }
}

async function openMix(path: string, name: string): ReturnType<typeof openSound> {
  try {
    return await openSound(path, name);
  } catch (error) {
    if (error instanceof InputError) throw aboutMix(error);
    const code = (error as NodeJS.ErrnoException).code ?? String(error);
    throw new InputError(`The mix cannot be read: ${code}.`, { where: path, remedy: "make the file readable" });
  }
}

/** What should be said of a mix before it is rendered. */
export function mixNotes({ channels, sampleRate, frames }: MixFile, renderedRate: number): string[] {
  const notes: string[] = [];
  if (channels === 1) notes.push("The mix is mono: both sides of every file are alike before the system's own filter.");
  if (sampleRate !== renderedRate) {
    notes.push(
      `The mix is sampled at ${sampleRate} Hz and the session at ${renderedRate} Hz: it was resampled to ${renderedRate} Hz by ${RATE_CHANGE_LIBRARY}.`,
    );
  }
  const seconds = frames / sampleRate;
  if (seconds > LONG_S) {
    const minutes = Math.round(seconds / 60);
    const gigabytes = (bytesPerFrame: number): string => ((seconds * renderedRate * bytesPerFrame) / 1e9).toFixed(1);
    // Two sides of 24 bits; while they are written, the same as 32-bit floats.
    const [written, beingWritten] = [gigabytes(6), gigabytes(6 + 8)];
    notes.push(
      `The mix lasts ${minutes} minutes: every file takes ${written} GB of disk, up to ${beingWritten} GB while it is made, and no more memory than a short one.`,
    );
  }
  return notes;
}

/**
 * Plays a mix from beginning to end, two sides, a stretch at a time.
 *
 * @param take - gets up to `stretch` frames; mono comes as the same samples twice
 */
export async function playMix(
  mix: Pick<MixFile, "path" | "name">,
  take: (left: Float32Array, right: Float32Array) => Promise<void> | void,
  stretch = STRETCH,
): Promise<void> {
  const reader = await openMix(mix.path, mix.name);
  try {
    for (let from = 0; from < reader.frames; from += stretch) {
      const [left, right] = await reader.read(from, stretch);
      if (left) await take(left, right ?? left);
    }
  } finally {
    await reader.close();
  }
}

/** Writes the mix at another sample rate, as 32-bit float. */
export async function changeMixRate(mix: MixFile, toRate: number, path: string): Promise<MixFile> {
  const frames = Math.round((mix.frames * toRate) / mix.sampleRate);
  const change = await rateChange(mix.sampleRate, toRate, mix.frames);
  const writer = await createWave(path, { channels: 2, frames, sampleRate: toRate, format: "float32" });
  await playMix(mix, (left, right) => writer.write(change.push(left, right)));
  await writer.write(change.end());
  await writer.close();
  return { ...mix, path, frames, sampleRate: toRate };
}
