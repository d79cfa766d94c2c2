import { InputError } from "../../errors.js";
import { type ByteSource, readFrom } from "../containers/reading.js";
import type { SoundReader } from "../sound-reader.js";
import { openFrameDecoder } from "./decode-frames.js";
import { type FrameIndex, indexFrames } from "./index-frames.js";
import { readStreamInfo } from "./stream-info.js";

/** So much is decoded at once: bounds the memory of the library. */
const BATCH_SAMPLES = 2 ** 18;

/**
 * Reads a FLAC file, and then its samples a stretch at a time, from any place.
 *
 * @throws {InputError} if the file is damaged, cut short, empty, or stores more than 24 bits
 */
export async function flacReader(source: ByteSource, name: string): Promise<SoundReader> {
  const stream = await readFrom(source, readStreamInfo(source.bytes, name));
  const index = await indexFrames(source, stream, name);
  const { channels, sampleRate, bits } = stream;
  const frames = index.sampleAt.at(-1)!;
  if (frames === 0) {
    throw new InputError("The FLAC file holds no samples.", { where: name, remedy: "record it again" });
  }
  const decoder = await openFrameDecoder(bits);

  async function decodeBatch(first: number, end: number): Promise<Float32Array[]> {
    const from = index.byteAt[first]!;
    const bytes = await source.read(from, index.byteAt[end]! - from);
    const batch = Array.from({ length: end - first }, (_, n) =>
      bytes.subarray(index.byteAt[first + n]! - from, index.byteAt[first + n + 1]! - from),
    );
    const samples = index.sampleAt[end]! - index.sampleAt[first]!;
    const decoded = await decoder.decode({ first, frames: batch, channels, samples });
    if (decoded) return decoded;
    throw new InputError(`The FLAC file is damaged near ${(index.sampleAt[first]! / sampleRate).toFixed(2)} s.`, {
      where: name,
      remedy: "copy the file again from the recorder, or export it again",
    });
  }

  return {
    ...{ channels, sampleRate, frames, encoding: `${bits}-bit FLAC`, lengthFromFile: index.lengthFromFile },
    async read(from, count, wanted) {
      const to = Math.min(frames, from + count);
      const sound = Array.from({ length: channels }, () => new Float32Array(Math.max(0, to - from)));
      for (let first = frameAt(index, from); index.sampleAt[first]! < to;) {
        const start = index.sampleAt[first]!;
        let end = first + 1;
        while (index.sampleAt[end]! < to && (index.sampleAt[end + 1]! - start) * channels <= BATCH_SAMPLES) end++;
        const decoded = await decodeBatch(first, end);
        for (const [channel, samples] of decoded.entries()) {
          const cut = samples.subarray(Math.max(0, from - start), to - start);
          sound[channel]!.set(cut, Math.max(0, start - from));
        }
        first = end;
      }
      return wanted ? wanted.map((channel) => sound[channel]!) : sound;
    },
    close() {
      decoder.close();
      return source.close();
    },
  };
}

/** The frame that holds a sample. */
function frameAt({ sampleAt }: FrameIndex, sample: number): number {
  let first = 0;
  let end = sampleAt.length - 1;
  while (end - first > 1) {
    const middle = (first + end) >> 1;
    if (sampleAt[middle]! <= sample) first = middle;
    else end = middle;
  }
  return first;
}
