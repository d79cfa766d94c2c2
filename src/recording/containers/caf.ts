import { InputError } from "../../errors.js";
import { type Chunk, type ChunkForm, readChunks } from "./chunks.js";
import { dataLength, empty, missing } from "./data-length.js";
import { asciiAt, type Reading, stretch } from "./reading.js";
import { checkFormat, contradiction, frameBytesOf, type SampleFormat, type SampleLayout } from "./sample-layout.js";

const FORM: ChunkForm = { from: 8, sizeBytes: 8, bigEndian: true, padded: false };
/** In front of the samples stands a count of edits. */
const EDIT_COUNT = 4;
const IS_FLOAT = 1;
const IS_LITTLE_ENDIAN = 2;
/** A recorder that is still at work leaves -1, which means: to the end of the file. */
const TO_THE_END = 2 ** 63;

/**
 * Reads the headers of a CAF file; a length that was never written is taken from the file's.
 *
 * @throws {InputError} if the file is compressed, cut short, empty, or its header contradicts itself
 * @remarks Source: Apple Core Audio Format Specification 1.0 (2011), from memory
 */
export function* readCaf(fileBytes: number, name: string): Reading<SampleLayout> {
  const isEndless = ({ id, claimedBytes }: Chunk): boolean => id === "data" && claimedBytes >= TO_THE_END;
  const chunks = yield* readChunks(FORM, fileBytes, name, isEndless);
  const description = chunks.find(({ id }) => id === "desc");
  const data = chunks.find(({ id }) => id === "data");
  if (!description) throw missing("format (desc) chunk", chunks, "CAF", name);
  const format = yield* readDescription(description, name);
  if (!data) throw missing("data chunk", chunks, "CAF", name);
  const start = data.start + EDIT_COUNT;
  const claimedBytes = data.claimedBytes - (isEndless(data) ? 0 : EDIT_COUNT);
  if (claimedBytes <= 0) throw empty("CAF", name);
  const presentBytes = Math.min(claimedBytes, fileBytes - start);
  return { ...format, dataStart: start, ...dataLength({ start, claimedBytes, presentBytes }, format, fileBytes, name) };
}

function* readDescription(chunk: Chunk, name: string): Reading<SampleFormat> {
  if (chunk.presentBytes < 32) {
    throw contradiction("CAF", `its desc chunk has ${chunk.presentBytes} bytes, 32 are needed`, name);
  }
  const content = yield* stretch(chunk.start, 32);
  const codec = asciiAt(content, 8, 4);
  if (codec !== "lpcm") {
    throw new InputError(`The CAF file is compressed ("${codec.replace(/[^\x20-\x7e]/g, "?")}"), not plain samples.`, {
      where: name,
      remedy:
        codec === "alac"
          ? "export it as 24-bit PCM or 32-bit float WAV"
          : "record again as 24-bit PCM or 32-bit float: a lossy codec changes what is measured",
    });
  }
  const flags = content.getUint32(12);
  const bits = content.getUint32(28);
  const containerBits = Math.ceil(bits / 8) * 8;
  const format: SampleFormat = {
    container: "CAF",
    kind: (flags & IS_FLOAT) === 0 ? "pcm" : "float",
    bigEndian: (flags & IS_LITTLE_ENDIAN) === 0,
    offsetBinary: false,
    containerBits,
    validBits: bits,
    channels: content.getUint32(24),
    sampleRate: content.getFloat64(0),
  };
  checkFormat(format, name);
  const frameBytes = content.getUint32(16);
  if (frameBytes !== frameBytesOf(format) || content.getUint32(20) !== 1) {
    const frame = `${format.channels} channel(s) of ${bits} bits`;
    throw contradiction("CAF", `a frame of ${frame} cannot take ${frameBytes} bytes`, name);
  }
  return format;
}
