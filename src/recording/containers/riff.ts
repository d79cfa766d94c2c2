import { type Chunk, type ChunkForm, isAllChunks, isChunkName, readChunks } from "./chunks.js";
import { dataLength, empty, isUnwritten, missing } from "./data-length.js";
import { type Reading, stretch } from "./reading.js";
import { checkFormat, frameBytesOf, type SampleLayout } from "./sample-layout.js";
import { readWaveFormat } from "./wave-format.js";

const FORM: ChunkForm = { from: 12, sizeBytes: 4, bigEndian: false, padded: true };
/** So much behind the stated end that is nothing else is sound: writers fill up their last block with less. */
const LEAST_BEHIND_S = 0.5;
/** In place of a size that 32 bits cannot hold. */
const IN_DS64 = 0xffff_ffff;

/**
 * Reads the headers of a WAV file: RIFF, or RF64 and BW64 for files beyond 4 GB; plain and extensible.
 *
 * Other chunks may stand before or after the samples, with or without their padding byte. A length that was never
 * written, or that was written before the recording ended, is taken from the file's; the one in the first twelve bytes is not
 * looked at, since it says nothing more.
 *
 * @throws {InputError} if the file is compressed, cut short, empty, or its header contradicts itself
 * @remarks Source: Multimedia Programming Interface and Data Specifications 1.0 (1991), chapter 3 (from memory); RF64:
 * EBU Tech 3306 (from memory); BW64: ITU-R BS.2088 (from memory)
 */
export function* readRiff(isLong: boolean, fileBytes: number, name: string): Reading<SampleLayout> {
  const isEndless = ({ id, claimedBytes, presentBytes }: Chunk): boolean =>
    !isChunkName(id) || (id === "data" && isUnwritten(claimedBytes) && claimedBytes > presentBytes);
  const form: ChunkForm = isLong ? { ...FORM, trueSize: sizeInDs64 } : FORM;
  const chunks = yield* readChunks(form, fileBytes, name, isEndless);
  const formatChunk = chunks.find(({ id }) => id === "fmt ");
  const data = chunks.find(({ id }) => id === "data");
  if (!formatChunk) throw missing("format (fmt) chunk", chunks, "WAV", name);
  const format = checkFormat(yield* readWaveFormat(formatChunk, name), name);
  if (!data) throw missing("data chunk", chunks, "WAV", name);
  if (data.claimedBytes === 0 && (yield* isAllChunks({ ...FORM, from: data.start }, fileBytes, name))) {
    throw empty("WAV", name);
  }
  const behind = fileBytes - data.start - data.claimedBytes;
  const goesOn =
    behind >= LEAST_BEHIND_S * format.sampleRate * frameBytesOf(format) && !(yield* isNotes(data, fileBytes, name));
  const claimed = goesOn ? { ...data, claimedBytes: 0 } : data;
  return { ...format, dataStart: data.start, ...dataLength(claimed, format, fileBytes, name) };
}

/** Whether what follows the samples is chunks, with or without a padding byte before them. */
function* isNotes({ start, claimedBytes }: Chunk, fileBytes: number, name: string): Reading<boolean> {
  for (const from of [start + claimedBytes, start + claimedBytes + (claimedBytes % 2)]) {
    if (yield* isAllChunks({ ...FORM, from }, fileBytes, name, isChunkName)) return true;
  }
  return false;
}

/** The samples' size stands in the chunk "ds64", since their own field is too small. */
function* sizeInDs64(id: string, ownField: number, before: readonly Chunk[]): Reading<number> {
  const sizes = before.find((chunk) => chunk.id === "ds64");
  if (id !== "data" || ownField !== IN_DS64 || !sizes || sizes.presentBytes < 16) return ownField;
  const content = yield* stretch(sizes.start + 8, 8);
  return content.getUint32(4, true) * 2 ** 32 + content.getUint32(0, true);
}
