import { crc8 } from "./checksums.js";
import type { FlacStream } from "./stream-info.js";

export interface FrameHeader {
  readonly bytes: number;
  readonly samples: number;
  /** Number of the frame, or of its first sample where frames differ in length. */
  readonly number: number;
  readonly numbersSamples: boolean;
}

/** Up to seven bytes of number, two each of length and rate, four before them and the checksum behind. */
export const LONGEST_HEADER = 16;
const BITS = [null, 8, 12, undefined, 16, 20, 24, 32] as const;

/**
 * Reads the header of a frame, if there is one at this place.
 *
 * @returns null if there is none, or one that does not belong to the stream
 * @remarks Source: RFC 9639 (2024), section 9.1
 */
export function readFrameHeader(bytes: Uint8Array, at: number, stream: FlacStream): FrameHeader | null {
  if (bytes[at] !== 0xff || (bytes[at + 1]! & 0xfe) !== 0xf8 || at + 6 > bytes.length) return null;
  const lengthCode = bytes[at + 2]! >> 4;
  const rateCode = bytes[at + 2]! & 15;
  const assignment = bytes[at + 3]! >> 4;
  const bits = BITS[(bytes[at + 3]! >> 1) & 7];
  const channels = assignment < 8 ? assignment + 1 : 2;
  if (lengthCode === 0 || rateCode === 15 || assignment > 10 || (bytes[at + 3]! & 1) === 1) return null;
  if (channels !== stream.channels || bits === undefined || (bits !== null && bits !== stream.bits)) return null;
  const coded = codedNumber(bytes, at + 4);
  if (!coded) return null;
  const lengthAt = at + 4 + coded.bytes;
  const lengthBytes = lengthCode === 6 ? 1 : lengthCode === 7 ? 2 : 0;
  const rateBytes = rateCode === 12 ? 1 : rateCode === 13 || rateCode === 14 ? 2 : 0;
  const end = lengthAt + lengthBytes + rateBytes + 1;
  if (end > bytes.length || crc8(bytes, at, end) !== 0) return null;
  const samples = blockSamples(lengthCode, bytes, lengthAt);
  return { bytes: end - at, samples, number: coded.value, numbersSamples: (bytes[at + 1]! & 1) === 1 };
}

function blockSamples(code: number, bytes: Uint8Array, at: number): number {
  if (code === 1) return 192;
  if (code <= 5) return 576 << (code - 2);
  if (code === 6) return bytes[at]! + 1;
  return code === 7 ? (bytes[at]! << 8) + bytes[at + 1]! + 1 : 256 << (code - 8);
}

/** A number coded as UTF-8 codes characters, in up to seven bytes. */
function codedNumber(bytes: Uint8Array, at: number): { value: number; bytes: number } | null {
  const first = bytes[at]!;
  const length = first < 0x80 ? 1 : Math.clz32(~(first << 24));
  if (length > 7 || (first >= 0x80 && length === 1) || at + length > bytes.length) return null;
  let value = first & (length === 1 ? 0x7f : 0xff >> (length + 1));
  for (let n = 1; n < length; n++) {
    const next = bytes[at + n]!;
    if ((next & 0xc0) !== 0x80) return null;
    value = value * 64 + (next & 0x3f);
  }
  return { value, bytes: length };
}
