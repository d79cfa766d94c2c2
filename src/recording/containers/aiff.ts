import { InputError } from "../../errors.js";
import { type Chunk, type ChunkForm, readChunks } from "./chunks.js";
import { dataLength, empty, isUnwritten, missing } from "./data-length.js";
import { asciiAt, type Reading, stretch } from "./reading.js";
import { checkFormat, contradiction, frameBytesOf, type SampleFormat, type SampleLayout } from "./sample-layout.js";

const FORM: ChunkForm = { from: 12, sizeBytes: 4, bigEndian: true, padded: true };
/** In front of the samples stand an offset and a block size. */
const SOUND_HEADER = 8;

/** Of the uncompressed kinds of AIFF-C, how samples are stored. Others than these are codecs. */
const kinds = new Map<string, Partial<Pick<SampleFormat, "kind" | "bigEndian" | "offsetBinary" | "containerBits">>>([
  ["NONE", {}],
  ["twos", {}],
  ["sowt", { bigEndian: false }],
  ["raw ", { offsetBinary: true }],
  ["in24", { containerBits: 24 }],
  ["in32", { containerBits: 32 }],
  ["fl32", { kind: "float", containerBits: 32 }],
  ["FL32", { kind: "float", containerBits: 32 }],
  ["fl64", { kind: "float", containerBits: 64 }],
  ["FL64", { kind: "float", containerBits: 64 }],
]);

/**
 * Reads the headers of an AIFF or AIFF-C file; a length that was never written is taken from the file's.
 *
 * @throws {InputError} if the file is compressed, cut short, empty, or its header contradicts itself
 * @remarks Source: Audio Interchange File Format 1.3 (1989) and AIFF-C draft (1991), from memory; samples are signed,
 * left-justified in whole bytes, the sample rate an 80-bit float
 */
export function* readAiff(fileBytes: number, name: string): Reading<SampleLayout> {
  const isEndless = ({ id, claimedBytes, presentBytes }: Chunk): boolean =>
    id === "SSND" && isUnwritten(claimedBytes) && (claimedBytes === 0 || claimedBytes > presentBytes);
  const chunks = yield* readChunks(FORM, fileBytes, name, isEndless);
  const common = chunks.find(({ id }) => id === "COMM");
  const sound = chunks.find(({ id }) => id === "SSND");
  if (!common) throw missing("format (COMM) chunk", chunks, "AIFF", name);
  const { format, frames } = yield* readCommon(common, name);
  if (!sound) throw missing("sound (SSND) chunk", chunks, "AIFF", name);
  const soundHeader = yield* stretch(sound.start, SOUND_HEADER);
  if (soundHeader.byteLength < SOUND_HEADER) throw empty("AIFF", name);
  const offset = SOUND_HEADER + soundHeader.getUint32(0);
  const start = sound.start + offset;
  const isEndlessSound = isEndless(sound);
  const claimedBytes = isEndlessSound
    ? sound.claimedBytes
    : Math.min(sound.claimedBytes - offset, frames * frameBytesOf(format));
  if (!isEndlessSound && claimedBytes <= 0) throw empty("AIFF", name);
  const presentBytes = Math.min(claimedBytes, fileBytes - start);
  return { ...format, dataStart: start, ...dataLength({ start, claimedBytes, presentBytes }, format, fileBytes, name) };
}

function* readCommon(chunk: Chunk, name: string): Reading<{ format: SampleFormat; frames: number }> {
  if (chunk.presentBytes < 18) {
    throw contradiction("AIFF", `its COMM chunk has ${chunk.presentBytes} bytes, at least 18 are needed`, name);
  }
  const content = yield* stretch(chunk.start, 22);
  const compression = chunk.presentBytes >= 22 ? asciiAt(content, 18, 4) : "NONE";
  const stored = kinds.get(compression);
  if (!stored) {
    throw new InputError(`The AIFF file is compressed ("${printable(compression)}"), not plain PCM or float samples.`, {
      where: name,
      remedy: "record again as 24-bit PCM or 32-bit float: a lossy codec changes what is measured",
    });
  }
  const bits = content.getUint16(6);
  const containerBits = stored.containerBits ?? Math.ceil(bits / 8) * 8;
  const plain = { container: "AIFF", kind: "pcm", bigEndian: true, offsetBinary: false } as const;
  const format = {
    ...{ ...plain, ...stored, containerBits },
    validBits: stored.kind === "float" || bits > containerBits ? containerBits : bits,
    channels: content.getUint16(0),
    sampleRate: extended(content, 8),
  };
  return { format: checkFormat(format, name), frames: content.getUint32(2) };
}

/** An 80-bit float: sign and exponent in 16 bits, then 64 bits of mantissa with its leading one. */
function extended(content: DataView, at: number): number {
  const exponent = content.getUint16(at);
  const mantissa = content.getUint32(at + 2) * 2 ** 32 + content.getUint32(at + 6);
  return exponent === 0x7fff ? Infinity : mantissa * 2 ** (exponent - 16_383 - 63);
}

function printable(text: string): string {
  return text.replace(/[^\x20-\x7e]/g, "?");
}
