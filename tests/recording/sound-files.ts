/** Builds AIFF, CAF, RF64 and FLAC files byte by byte, right and wrong ones, independently of the code under test. */

import { ascii, concat, little } from "./wav-file.js";

export const big = (value: number, bytes: number): Uint8Array => little(value, bytes).reverse();

/** A chunk of AIFF with its padding byte. */
export function aiffChunk(id: string, content: Uint8Array, claimedBytes = content.length): Uint8Array {
  return concat([ascii(id), big(claimedBytes, 4), content, content.length % 2 === 1 ? [0] : []]);
}

export interface AiffParts {
  readonly channels?: number;
  readonly sampleRate?: number;
  readonly bits?: number;
  readonly frames: number;
  /** Kind of AIFF-C; plain AIFF without it. */
  readonly kind?: string;
  readonly data: Uint8Array;
  readonly offset?: number;
  /** What the SSND chunk claims beyond its own header, where that differs from what it holds. */
  readonly claimedBytes?: number;
  readonly soundFirst?: boolean;
  readonly before?: readonly Uint8Array[];
  readonly after?: readonly Uint8Array[];
}

/** A sample rate of up to 32 bits as an 80-bit float. */
function extendedRate(rate: number): Uint8Array {
  if (rate === 0) return new Uint8Array(10);
  const exponent = Math.floor(Math.log2(rate));
  return concat([big(16_383 + exponent, 2), big(Math.round(rate * 2 ** (31 - exponent)), 4), big(0, 4)]);
}

export function aiffFile(parts: AiffParts): Uint8Array {
  const { channels = 1, sampleRate = 48_000, bits = 16, frames, kind, data, offset = 0 } = parts;
  const format = concat([big(channels, 2), big(frames, 4), big(bits, 2), extendedRate(sampleRate)]);
  const common = aiffChunk("COMM", kind === undefined ? format : concat([format, ascii(kind), [0, 0]]));
  const content = concat([big(offset, 4), big(0, 4), new Uint8Array(offset), data]);
  const sound = aiffChunk("SSND", content, parts.claimedBytes ?? content.length);
  const body = concat([
    ascii(kind === undefined ? "AIFF" : "AIFC"),
    ...(parts.before ?? []),
    ...(parts.soundFirst ? [sound, common] : [common, sound]),
    ...(parts.after ?? []),
  ]);
  return concat([ascii("FORM"), big(body.length, 4), body]);
}

export interface CafParts {
  readonly codec?: string;
  readonly flags?: number;
  readonly channels?: number;
  readonly sampleRate?: number;
  readonly bits?: number;
  readonly bytesPerPacket?: number;
  readonly data: Uint8Array;
  /** Size of the data chunk, as eight bytes. */
  readonly claimed?: Uint8Array;
  readonly before?: readonly Uint8Array[];
  readonly after?: readonly Uint8Array[];
}

export function cafChunk(id: string, content: Uint8Array, size = big(content.length, 8)): Uint8Array {
  return concat([ascii(id), size, content]);
}

export function cafFile(parts: CafParts): Uint8Array {
  const { codec = "lpcm", flags = 0, channels = 1, sampleRate = 48_000, bits = 16, data } = parts;
  const rate = new Uint8Array(Float64Array.of(sampleRate).buffer).reverse();
  const bytesPerPacket = parts.bytesPerPacket ?? channels * Math.ceil(bits / 8);
  const numbers = [flags, bytesPerPacket, 1, channels, bits].map((value) => big(value, 4));
  return concat([
    ascii("caff\0\x01\0\0"),
    cafChunk("desc", concat([rate, ascii(codec), ...numbers])),
    ...(parts.before ?? []),
    cafChunk("data", concat([big(0, 4), data]), parts.claimed ?? big(4 + data.length, 8)),
    ...(parts.after ?? []),
  ]);
}

/** A file beyond 4 GB in form, if not in length: its sizes stand in "ds64". */
export function rf64File(parts: {
  readonly form?: "RF64" | "BW64";
  readonly formatBytes: Uint8Array;
  readonly data: Uint8Array;
  readonly dataSize?: Uint8Array;
  readonly after?: readonly Uint8Array[];
}): Uint8Array {
  const { form = "RF64", formatBytes, data, dataSize = little(data.length, 8), after = [] } = parts;
  return concat([
    ...[ascii(form), little(0xffff_ffff, 4), ascii("WAVE")],
    ...[ascii("ds64"), little(28, 4), little(0, 8), dataSize, little(0, 8), little(0, 4)],
    ...[ascii("fmt "), little(formatBytes.length, 4), formatBytes],
    ...[ascii("data"), little(0xffff_ffff, 4), data, data.length % 2 === 1 ? [0] : []],
    ...after,
  ]);
}

/** Bits, most significant first. */
function packed(fields: readonly (readonly [value: number, bits: number])[]): Uint8Array {
  const bits = fields.flatMap(([value, width]) =>
    Array.from({ length: width }, (_, n) => Math.floor(value / 2 ** (width - 1 - n)) & 1),
  );
  return Uint8Array.from({ length: Math.ceil(bits.length / 8) }, (_, n) =>
    Array.from({ length: 8 }, (__, bit) => bits[8 * n + bit] ?? 0).reduce((byte, bit) => 2 * byte + bit, 0),
  );
}

/** Integers to big-endian two's complement. */
function wholeBytes(steps: readonly number[], width: number): Uint8Array {
  const bytes = new Uint8Array(steps.length * width);
  for (const [n, step] of steps.entries()) {
    for (let byte = 0; byte < width; byte++) bytes[n * width + byte] = step >> (8 * (width - 1 - byte));
  }
  return bytes;
}

function checksum(bytes: Uint8Array, width: 8 | 16, polynomial: number): number {
  let crc = 0;
  for (const byte of bytes) {
    crc ^= byte << (width - 8);
    for (let bit = 0; bit < 8; bit++)
      crc = ((crc << 1) ^ ((crc >> (width - 1)) & 1 ? polynomial : 0)) & (2 ** width - 1);
  }
  return crc;
}

export interface FlacParts {
  /** Steps of each channel; all of the same length. */
  readonly channels: readonly (readonly number[])[];
  readonly bits: 8 | 16 | 24;
  readonly sampleRate?: number;
  readonly block: number;
  readonly claimedSamples?: number;
  /** Notes between the description and the first frame. */
  readonly notes?: Uint8Array;
}

/** The beginning of a FLAC file, and its frames: samples as they stand, nothing predicted. Source: RFC 9639 (2024). */
export function flacParts(parts: FlacParts): { head: Uint8Array; frames: Uint8Array[] } {
  const { channels, bits, sampleRate = 48_000, block, notes } = parts;
  const total = channels[0]!.length;
  const info = packed([
    ...([
      [block, 16],
      [block, 16],
      [0, 24],
      [0, 24],
    ] as const),
    ...([
      [sampleRate, 20],
      [channels.length - 1, 3],
      [bits - 1, 5],
      [parts.claimedSamples ?? total, 36],
    ] as const),
  ]);
  const head = concat([
    ascii("fLaC"),
    ...[[notes ? 0 : 0x80], big(34, 3), info, new Uint8Array(16)],
    ...(notes ? [[0x84], big(notes.length, 3), notes] : []),
  ]);
  const frames = Array.from({ length: Math.ceil(total / block) }, (_, index) => {
    const from = index * block;
    const count = Math.min(block, total - from);
    const codes = { 8: 1, 16: 4, 24: 6 };
    // Numbers up to 2047 as UTF-8 codes characters.
    const number = index < 128 ? [index] : [0xc0 | (index >> 6), 0x80 | (index & 63)];
    const header = concat([
      [0xff, 0xf8, 0x7a, ((channels.length - 1) << 4) | (codes[bits] << 1)],
      number,
      big(count - 1, 2),
    ]);
    // Kind 2: samples as they stand. Whole bytes throughout.
    const subframes = channels.flatMap((steps) => [[2], wholeBytes(steps.slice(from, from + count), bits / 8)]);
    const frame = concat([header, [checksum(header, 8, 0x07)], ...subframes]);
    return concat([frame, big(checksum(frame, 16, 0x8005), 2)]);
  });
  return { head, frames };
}

export function flacFile(parts: FlacParts): Uint8Array {
  const { head, frames } = flacParts(parts);
  return concat([head, ...frames]);
}
