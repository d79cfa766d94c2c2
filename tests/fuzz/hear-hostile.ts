import { expect } from "vitest";

import { InputError } from "../../src/errors.js";
import { chooseChannel } from "../../src/recording/choose-channel.js";
import { readTrack } from "../../src/recording/read-tracks.js";
import { type ByteSource, soundReader } from "../../src/recording/sound-reader.js";

export type End = "heard" | "refused";

const NAME = "hostile.wav";
/** What a FLAC frame can stand for, and what a sample of 8 bits takes as a float: no file may claim to hold more. */
const SAMPLES_PER_BYTE = 65_536;

/**
 * Hears a file as a session's recordings are heard.
 *
 * @returns one of the two ends that there may be; anything else is thrown: a fault of the program
 */
export async function hearHostile(bytes: Uint8Array): Promise<End> {
  const source = counted(bytes);
  try {
    const sound = await soundReader(source, NAME);
    const { channels, frames, sampleRate } = sound;
    try {
      expect(channels).toBeGreaterThan(0);
      expect(channels).toBeLessThanOrEqual(128);
      expect(sampleRate).toBeGreaterThanOrEqual(8000);
      expect(Number.isInteger(frames) && frames > 0).toBe(true);
      expect(frames * channels).toBeLessThanOrEqual(bytes.length * SAMPLES_PER_BYTE);
      const most = Math.min(frames, 2 ** 20);
      const channel = frames > most ? 0 : await chooseChannel(sound, undefined, undefined, NAME).catch(orFirst);
      checkSamples(await readTrack(sound, channel, 0, most), most);
      checkSamples(await readTrack(sound, channels - 1, frames - 3, frames), Math.min(3, frames));
      for (const samples of await sound.read(Math.floor(frames / 2), 5)) expect(samples.length).toBeLessThanOrEqual(5);
    } finally {
      await sound.close();
    }
    return "heard";
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    expect(error.message).not.toMatch(/undefined|NaN (s|min|Hz)|\[object|null/);
    expect(error.where).toMatch(/^hostile\.wav/);
    expect(error.remedy).not.toBe("");
    return "refused";
  } finally {
    // Parts are walked through, and sound is read a few times: never the same again and again.
    expect(source.readBytes).toBeLessThan(40 * bytes.length + 100_000);
    expect(source.reads).toBeLessThan(5000);
  }
}

/** Which channel is the microphone is the session's to say. */
function orFirst(error: unknown): number {
  if (error instanceof InputError && error.message.includes("does not say which")) return 0;
  throw error;
}

/** Compared by hand: a matcher for each sample would take longer than everything else. */
function checkSamples(samples: Float32Array, count: number): void {
  expect(samples.length).toBe(count);
  for (const value of samples) if (!(Math.abs(value) <= 1000)) throw new Error(`${value} is no sound`);
}

function counted(bytes: Uint8Array): ByteSource & { readBytes: number; reads: number } {
  return {
    bytes: bytes.length,
    readBytes: 0,
    reads: 0,
    read(from, count) {
      // A source that is asked for more than there is would have to find memory for it first.
      if (from + count > bytes.length || from < 0 || count < 0) {
        throw new Error(`${count} bytes from ${from} are asked for, of ${bytes.length}`);
      }
      this.readBytes += count;
      this.reads += 1;
      return Promise.resolve(bytes.subarray(from, from + count));
    },
    close: () => Promise.resolve(),
  };
}
