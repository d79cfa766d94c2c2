import { InputError } from "../../errors.js";
import { type Reading, stretch } from "../containers/reading.js";
import { checkChannelsAndRate, contradiction } from "../containers/sample-layout.js";

/** What a FLAC file says of itself before its first frame. */
export interface FlacStream {
  readonly channels: number;
  readonly bits: number;
  readonly sampleRate: number;
  /** 0 where the writer could not go back to fill it in. */
  readonly claimedSamples: number;
  /** Samples of every frame but the last; null where they vary. */
  readonly blockSamples: number | null;
  /** Byte at which the first frame begins. */
  readonly firstFrame: number;
}

const STREAM_INFO = 0;
const STREAM_INFO_BYTES = 34;
/** Far above what any writer leaves. */
const MOST_BLOCKS = 1024;

/**
 * Reads a FLAC file as far as its first frame.
 *
 * @throws {InputError} if its header contradicts itself, or its samples have more bits than the decoder can return
 * @remarks Source: RFC 9639 (2024), sections 6 to 8
 */
export function* readStreamInfo(fileBytes: number, name: string): Reading<FlacStream> {
  const start = 4;
  const header = yield* stretch(start, 4 + STREAM_INFO_BYTES);
  if (header.byteLength < 4 + STREAM_INFO_BYTES || (header.getUint8(0) & 0x7f) !== STREAM_INFO) {
    throw contradiction("FLAC", "it does not begin with a description of its samples", name);
  }
  const info = 4;
  const shortest = header.getUint16(info);
  const longest = header.getUint16(info + 2);
  // 20 bits of rate, 3 of channels less one, 5 of bits less one, 36 of samples.
  const packed = header.getUint32(info + 10);
  const stream = {
    sampleRate: packed >>> 12,
    channels: ((packed >>> 9) & 7) + 1,
    bits: ((packed >>> 4) & 31) + 1,
    claimedSamples: (packed & 15) * 2 ** 32 + header.getUint32(info + 14),
    blockSamples: shortest === longest ? longest : null,
  };
  checkChannelsAndRate("FLAC", stream.channels, stream.sampleRate, name);
  if (stream.bits < 8 || stream.bits > 24) {
    throw new InputError(`The FLAC file stores ${stream.bits}-bit samples, which are not read.`, {
      where: name,
      remedy: "export it again as 16-bit or 24-bit FLAC, or as WAV",
    });
  }
  return { ...stream, firstFrame: yield* firstFrame(start, fileBytes, name) };
}

/** Passes over the blocks of notes and pictures. */
function* firstFrame(start: number, fileBytes: number, name: string): Reading<number> {
  let at = start;
  for (let count = 0; count < MOST_BLOCKS && at + 4 <= fileBytes; count++) {
    const header = yield* stretch(at, 4);
    const isLast = header.getUint8(0) >= 0x80;
    at += 4 + (header.getUint32(0) & 0xff_ffff);
    if (isLast) return at;
  }
  throw contradiction("FLAC", "its notes do not end", name);
}
