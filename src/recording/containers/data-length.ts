import { InputError } from "../../errors.js";
import type { Chunk } from "./chunks.js";
import { frameBytesOf, type SampleFormat } from "./sample-layout.js";

/** Of the part of a file that holds the samples. */
export interface DataLength {
  /** Whole frames only. */
  readonly dataBytes: number;
  readonly lengthFromFile: boolean;
}

/**
 * Whether a length is one that its writer left for later and never filled in.
 *
 * A recorder that crashed leaves 0 or the highest number there; one that writes into a pipe leaves a number at or just
 * below 2^31 (observed: sox 0x7ffff000 in WAV and 0x7f000007 in AIFF, ffmpeg 0xffffffff and 0).
 */
export function isUnwritten(claimedBytes: number): boolean {
  const highest = (claimedBytes >= 0xffff_f000 && claimedBytes <= 0xffff_ffff) || claimedBytes >= 2 ** 63;
  return claimedBytes === 0 || highest || (claimedBytes >= 0x7f00_0000 && claimedBytes <= 0x8000_0000);
}

/**
 * Settles how many bytes of samples a file holds.
 *
 * @param data - the chunk, or the part of it that holds samples
 * @throws {InputError} if there are none, or some of them are missing
 */
export function dataLength(data: Omit<Chunk, "id">, format: SampleFormat, fileBytes: number, name: string): DataLength {
  const frameBytes = frameBytesOf(format);
  const lengthFromFile =
    isUnwritten(data.claimedBytes) && (data.claimedBytes === 0 || data.presentBytes < data.claimedBytes);
  if (!lengthFromFile && data.presentBytes < data.claimedBytes) {
    throw cutShort(data, frameBytes * format.sampleRate, format.container, name);
  }
  const bytes = lengthFromFile ? Math.max(0, fileBytes - data.start) : data.presentBytes;
  const dataBytes = bytes - (bytes % frameBytes);
  if (dataBytes === 0) throw empty(format.container, name);
  return { dataBytes, lengthFromFile };
}

export function empty(container: string, name: string): InputError {
  return new InputError(`The ${container} file holds no samples.`, {
    where: name,
    remedy: "record it again, or copy the file again from the recorder",
  });
}

function cutShort(
  { claimedBytes, presentBytes }: Omit<Chunk, "id">,
  bytesPerSecond: number,
  container: string,
  name: string,
): InputError {
  const seconds = (bytes: number): number => Number((bytes / bytesPerSecond).toPrecision(3));
  const missingS = seconds(claimedBytes - presentBytes);
  return new InputError(
    `The ${container} file is cut short: the last ${missingS} s of ${seconds(claimedBytes)} s are missing.`,
    {
      where: name,
      remedy: "copy the file again from the recorder; if it is complete there, the copy was interrupted",
    },
  );
}

/** A part without which nothing can be read. */
export function missing(what: string, chunks: readonly Chunk[], container: string, name: string): InputError {
  const last = chunks.at(-1);
  const cut = last !== undefined && last.presentBytes < last.claimedBytes;
  return new InputError(
    `The ${container} file has no ${what}${cut ? "; it ends in the middle of another chunk" : ""}.`,
    {
      where: name,
      remedy: "copy the file again from the recorder, or export it again as WAV",
    },
  );
}
