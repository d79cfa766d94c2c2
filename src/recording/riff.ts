import { InputError } from "../errors.js";
import { asciiAt, nameForeignContainer } from "./foreign-container.js";

/** Where the samples of a WAV file lie, and how they are stored. */
export interface WaveLayout {
  readonly kind: "pcm" | "float";
  /** Bits of one sample's container: 8, 16, 24, 32 (PCM) or 32, 64 (float). */
  readonly containerBits: number;
  /** Bits that carry sound; they are the upper ones of the container. */
  readonly validBits: number;
  readonly channels: number;
  readonly sampleRate: number;
  readonly dataStart: number;
  /** Whole frames only: a multiple of the frame's size. */
  readonly dataBytes: number;
}

interface Chunk {
  readonly id: string;
  readonly start: number;
  readonly claimedBytes: number;
  /** Fewer than claimed where the file ends early. */
  readonly presentBytes: number;
}

type Format = Omit<WaveLayout, "dataStart" | "dataBytes">;

const LOWEST_RATE = 8000;
const HIGHEST_RATE = 384_000;
/** Writers that could not go back to fill in the length leave a value from here up. */
const LENGTH_NEVER_WRITTEN = 0x7fff_f000;
/** What follows the format tag in the GUID of an extensible header's sub-format. */
const SUBFORMAT_TAIL = "\x00\x00\x00\x00\x10\x00\x80\x00\x00\xaa\x00\x38\x9b\x71";

const codecs = new Map([
  [0x0002, "Microsoft ADPCM"],
  [0x0006, "A-law"],
  [0x0007, "mu-law"],
  [0x0011, "IMA ADPCM"],
  [0x0031, "GSM 6.10"],
  [0x0050, "MPEG audio"],
  [0x0055, "MP3"],
  [0x00ff, "AAC"],
  [0x0161, "Windows Media Audio"],
]);

/**
 * Reads the headers of a WAV file: plain and extensible, other chunks before or after the samples, odd chunks padded.
 *
 * @param bytes - the file, or its beginning as far as the start of the samples
 * @param name - the file's name, for messages
 * @param fileBytes - length of the whole file
 * @throws {InputError} if this is no WAV file, is compressed, cut short, empty, or its header contradicts itself
 * @remarks Source: Multimedia Programming Interface and Data Specifications 1.0 (1991), chapter 3 (from memory); the
 * extensible header: WAVEFORMATEXTENSIBLE, samples left-justified in their containers (from memory).
 */
export function readWaveLayout(bytes: Uint8Array, name: string, fileBytes: number = bytes.length): WaveLayout {
  if (asciiAt(bytes, 0, 4) !== "RIFF" || asciiAt(bytes, 8, 4) !== "WAVE") {
    const { is, remedy } = nameForeignContainer(bytes);
    throw new InputError(`This is ${is}; recordings are read from WAV files.`, { where: name, remedy });
  }
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const chunks = readChunks(bytes, view, fileBytes);
  const formatChunk = chunks.find((chunk) => chunk.id === "fmt ");
  const data = chunks.find((chunk) => chunk.id === "data");
  if (!formatChunk) throw missing("format (fmt) chunk", chunks, name);
  const format = readFormat(bytes, view, formatChunk, name);
  if (!data) throw missing("data chunk", chunks, name);

  const frameBytes = (format.channels * format.containerBits) / 8;
  if (data.presentBytes < data.claimedBytes) throw cutShort(data, frameBytes * format.sampleRate, name);
  const dataBytes = data.presentBytes - (data.presentBytes % frameBytes);
  if (dataBytes === 0) {
    throw new InputError("The WAV file holds no samples: its data chunk is empty.", {
      where: name,
      remedy: "record it again; if the file is large all the same, its recorder was stopped before it could finish it",
    });
  }
  return { ...format, dataStart: data.start, dataBytes };
}

function readChunks(bytes: Uint8Array, view: DataView, fileBytes: number): Chunk[] {
  const chunks: Chunk[] = [];
  let at = 12;
  while (at + 8 <= bytes.length) {
    const claimedBytes = view.getUint32(at + 4, true);
    const start = at + 8;
    const presentBytes = Math.min(claimedBytes, fileBytes - start);
    chunks.push({ id: asciiAt(bytes, at, 4), start, claimedBytes, presentBytes });
    // A chunk of odd size is followed by one byte that its size does not count.
    at = start + claimedBytes + (claimedBytes % 2);
  }
  return chunks;
}

function readFormat(bytes: Uint8Array, view: DataView, chunk: Chunk, name: string): Format {
  const at = chunk.start;
  if (chunk.presentBytes < 16) {
    throw contradiction(`its format chunk has ${chunk.presentBytes} bytes, at least 16 are needed`, name);
  }
  let tag = view.getUint16(at, true);
  const channels = view.getUint16(at + 2, true);
  const sampleRate = view.getUint32(at + 4, true);
  const frameBytes = view.getUint16(at + 12, true);
  const bits = view.getUint16(at + 14, true);
  let validBits = bits;
  if (tag === 0xfffe) {
    if (chunk.presentBytes < 40) {
      throw contradiction(`its extensible format chunk has ${chunk.presentBytes} bytes, 40 are needed`, name);
    }
    // 0 stands for "all of them", and writers leave it so.
    validBits = view.getUint16(at + 18, true) || bits;
    tag = asciiAt(bytes, at + 26, 14) === SUBFORMAT_TAIL ? view.getUint16(at + 24, true) : 0xfffe;
  }
  if (tag !== 1 && tag !== 3) throw compressed(tag, name);
  if (channels === 0) throw contradiction("it claims to have no channels", name);
  if (sampleRate < LOWEST_RATE || sampleRate > HIGHEST_RATE) {
    throw contradiction(
      `it claims a sample rate of ${sampleRate} Hz; ${LOWEST_RATE} to ${HIGHEST_RATE} Hz is accepted`,
      name,
    );
  }
  const kind = tag === 1 ? "pcm" : "float";
  const containerBits = Math.ceil(bits / 8) * 8;
  const known = kind === "pcm" ? bits >= 8 && bits <= 32 : bits === 32 || bits === 64;
  if (!known) {
    throw new InputError(`The WAV file stores ${bits}-bit ${kind === "pcm" ? "PCM" : "float"}, which is not read.`, {
      where: name,
      remedy: "export it again as 16-bit, 24-bit or 32-bit float WAV",
    });
  }
  if (frameBytes * 8 !== channels * containerBits) {
    const frame = `${channels} channel(s) of ${bits} bits`;
    throw contradiction(`a frame of ${frame} cannot take ${frameBytes} bytes (block align)`, name);
  }
  if (kind === "float" || validBits > bits || validBits < 8) validBits = bits;
  return { kind, containerBits, validBits, channels, sampleRate };
}

function missing(what: string, chunks: readonly Chunk[], name: string): InputError {
  const last = chunks.at(-1);
  const cut = last !== undefined && last.presentBytes < last.claimedBytes;
  return new InputError(`The WAV file has no ${what}${cut ? "; it ends in the middle of another chunk" : ""}.`, {
    where: name,
    remedy: "copy the file again from the recorder, or export it again as WAV",
  });
}

function cutShort(data: Chunk, bytesPerSecond: number, name: string): InputError {
  if (data.claimedBytes >= LENGTH_NEVER_WRITTEN) {
    return new InputError("The WAV file does not say how long it is: its writer never filled in the length.", {
      where: name,
      remedy: "open it in an audio editor and save it again as WAV, or let the recorder finish the file",
    });
  }
  const seconds = (bytes: number): number => Number((bytes / bytesPerSecond).toPrecision(3));
  const missingS = seconds(data.claimedBytes - data.presentBytes);
  const claimedS = seconds(data.claimedBytes);
  return new InputError(`The WAV file is cut short: the last ${missingS} s of ${claimedS} s are missing.`, {
    where: name,
    remedy: "copy the file again from the recorder; if it is complete there, the copy was interrupted",
  });
}

function compressed(tag: number, name: string): InputError {
  const codec = codecs.get(tag) ?? `a codec that is not read (format tag 0x${tag.toString(16).padStart(4, "0")})`;
  return new InputError(`The WAV file is stored as ${codec}, not as plain PCM or float samples.`, {
    where: name,
    remedy: "record again as 24-bit PCM or 32-bit float WAV: a lossy codec changes what is measured",
  });
}

function contradiction(what: string, name: string): InputError {
  return new InputError(`The header of the WAV file makes no sense: ${what}.`, {
    where: name,
    remedy: "export the file again as WAV, or copy it again from the recorder",
  });
}
