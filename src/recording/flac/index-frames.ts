import { InputError } from "../../errors.js";
import type { ByteSource } from "../containers/reading.js";
import { crc16Step } from "./checksums.js";
import { type FrameHeader, LONGEST_HEADER, readFrameHeader } from "./frame-header.js";
import type { FlacStream } from "./stream-info.js";

/** Where every frame of a FLAC file begins; one place more says where the last one ends. */
export interface FrameIndex {
  readonly byteAt: readonly number[];
  readonly sampleAt: readonly number[];
  /** The header did not say how long the file is. */
  readonly lengthFromFile: boolean;
}

/** The decoding library takes no longer ones. Encoders stay below: 16384 samples of 8 channels and 24 bits take 393216 bytes. */
const LONGEST_FRAME = 65_535 * 8;
const FIRST_LOOK = 2 ** 17;
/** Of the shortest usual frames of 192 samples: four hours at 48 kHz. Bounds the memory that the index takes. */
const MOST_FRAMES = 2 ** 22;

/**
 * Finds the frames of a FLAC file, and holds each against its checksum.
 *
 * What the decoding library does to find them was measured: it drops a last frame of a sample or two, and says nothing of frames
 * whose checksum is wrong.
 *
 * @throws {InputError} if a frame is damaged or missing
 * @remarks Source: RFC 9639 (2024), section 9
 */
export async function indexFrames(source: ByteSource, stream: FlacStream, name: string): Promise<FrameIndex> {
  const byteAt = [stream.firstFrame];
  const sampleAt = [0];
  const lengthFromFile = stream.claimedSamples === 0;
  let first: number | null = null;
  let bytes: Uint8Array = new Uint8Array();
  let bytesFrom = stream.firstFrame;
  for (let look = FIRST_LOOK; ;) {
    const at = byteAt.at(-1)!;
    const sample = sampleAt.at(-1)!;
    if (at >= source.bytes) break;
    const atEnd = bytesFrom + bytes.length >= source.bytes;
    const header = readFrameHeader(bytes, at - bytesFrom, stream);
    const end = header && frameEnd(bytes, at - bytesFrom, header, stream, atEnd);
    if (header === null || end === null) {
      // What is in memory may end within the frame.
      if (!atEnd && bytes.length - (at - bytesFrom) < LONGEST_FRAME) {
        look = at === bytesFrom && bytes.length > 0 ? 2 * look : FIRST_LOOK;
        bytes = await source.read(at, Math.min(look, source.bytes - at));
        bytesFrom = at;
        continue;
      }
      // The last frame that a recorder wrote before it stopped is a part of one.
      if (lengthFromFile && atEnd && source.bytes - at < LONGEST_FRAME) break;
      throw header && header.samples * stream.channels * stream.bits > 8 * LONGEST_FRAME
        ? tooLong(header.samples, name)
        : damaged(sample, stream, name);
    }
    const place = placeOf(header, stream) ?? sample;
    // A part cut out of a longer recording may keep its numbers.
    first ??= place;
    if (place - first !== sample || byteAt.length > MOST_FRAMES) throw damaged(sample, stream, name);
    byteAt.push(bytesFrom + end);
    sampleAt.push(sample + header.samples);
  }
  const found = sampleAt.at(-1)!;
  if (!lengthFromFile && found !== stream.claimedSamples) throw cutShort(found, stream, name);
  return { byteAt, sampleAt, lengthFromFile };
}

/** Where the next frame begins, or the file ends; null if a frame with the right checksum does not end within the bytes. */
function frameEnd(
  bytes: Uint8Array,
  at: number,
  header: FrameHeader,
  stream: FlacStream,
  atEnd: boolean,
): number | null {
  const last = Math.min(bytes.length, at + LONGEST_FRAME);
  // Close to the end of what is in memory a header could not be told.
  const until = atEnd ? last : Math.min(last, bytes.length - LONGEST_HEADER);
  let crc = 0;
  for (let n = at; n < until; n++) {
    if (crc === 0 && n > at + header.bytes && readFrameHeader(bytes, n, stream)) return n;
    crc = crc16Step(crc, bytes[n]!);
  }
  return atEnd && crc === 0 && until === bytes.length ? until : null;
}

/** Number of a frame's first sample as the frame itself has it; null where it cannot be told. */
function placeOf({ number, numbersSamples }: FrameHeader, { blockSamples }: FlacStream): number | null {
  if (numbersSamples) return number;
  return blockSamples === null ? null : number * blockSamples;
}

function damaged(sample: number, { sampleRate }: FlacStream, name: string): InputError {
  return new InputError(`The FLAC file is damaged at ${(sample / sampleRate).toFixed(2)} s.`, {
    where: name,
    remedy: "copy the file again from the recorder, or export it again",
  });
}

function tooLong(samples: number, name: string): InputError {
  return new InputError(`The FLAC file holds its sound in blocks of ${samples} samples, longer ones than are read.`, {
    where: name,
    remedy: "export it again as FLAC with the usual block size, or as WAV",
  });
}

function cutShort(found: number, { claimedSamples, sampleRate }: FlacStream, name: string): InputError {
  const [foundS, claimedS] = [found, claimedSamples].map((samples) => (samples / sampleRate).toFixed(2));
  const what =
    found < claimedSamples
      ? `The FLAC file is cut short: it holds ${foundS!} s of ${claimedS!} s.`
      : `The header of the FLAC file makes no sense: it claims ${claimedS!} s, and ${foundS!} s are there.`;
  return new InputError(what, {
    where: name,
    remedy: "copy the file again from the recorder; if it is complete there, the copy was interrupted",
  });
}
