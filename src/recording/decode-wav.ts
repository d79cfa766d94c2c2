import wavDecoder from "wav-decoder";
import { InputError } from "../errors.js";
import type { DecodedAudio } from "../model.js";
import { readWaveLayout, type WaveLayout } from "./riff.js";

/**
 * Decodes a WAV file; the only door to the decoding library.
 *
 * The library sees nothing but a minimal file that we lay out for it, because what it does with others was measured:
 * it refuses extensible headers, does not pad odd chunks and throws a bare RangeError on a truncated file. Two of its
 * readings are wrong and are mended here: 8-bit samples (see `canonicalFile`) and the lowest 24-bit sample.
 *
 * @param bytes - the whole file
 * @param name - the file's name, for messages
 * @returns one array per channel; an integer sample `k` of `b` bits is `k / 2^(b - 1)`, so the lowest is exactly -1 and
 *   the highest one step below 1. 32-bit PCM and 64-bit float are rounded to the 24 bits of a 32-bit float
 * @throws {InputError} for everything that is not a whole, readable WAV file with finite samples; nothing else is thrown
 * @example decodeWav(mono 16-bit file with samples 0, 16384, -32768, "a.wav").channels[0] // [0, 0.5, -1]
 */
export function decodeWav(bytes: Uint8Array, name: string): DecodedAudio {
  const layout = readWaveLayout(bytes, name);
  const data = bytes.subarray(layout.dataStart, layout.dataStart + layout.dataBytes);
  return {
    sampleRate: layout.sampleRate,
    channels: decodeFrames(data, layout, name, 0),
    encoding: encodingOf(layout),
  };
}

/**
 * Decodes a stretch of a WAV file's samples, as `decodeWav` does the whole.
 *
 * @param data - whole frames
 * @param firstFrame - where in the file they begin, for messages
 * @throws {InputError} if a sample is not finite
 */
export function decodeFrames(
  data: Uint8Array,
  layout: WaveLayout,
  name: string,
  firstFrame: number,
): readonly Float32Array[] {
  const { channelData } = wavDecoder.decode.sync(canonicalFile(data, layout), { symmetric: true });
  if (layout.kind === "float") checkFinite(channelData, layout.sampleRate, name, firstFrame);
  else if (layout.containerBits === 24) mendLowest24(channelData);
  return channelData;
}

/** RIFF header, 16-byte format chunk, data chunk: one copy of the samples, which the library wants at a fixed place. */
function canonicalFile(data: Uint8Array, layout: WaveLayout): ArrayBuffer {
  // The library puts the zero of 8-bit samples at 127.5; it is 128. As the upper byte of 16 bits they are read right.
  const widen = layout.containerBits === 8;
  const bits = widen ? 16 : layout.containerBits;
  const dataBytes = widen ? 2 * data.length : data.length;
  const file = new ArrayBuffer(44 + dataBytes);
  const view = new DataView(file);
  const frameBytes = (layout.channels * bits) / 8;
  view.setUint32(0, 0x52494646); // RIFF
  view.setUint32(4, 36 + dataBytes, true);
  view.setUint32(8, 0x57415645); // WAVE
  view.setUint32(12, 0x666d7420); // fmt
  view.setUint32(16, 16, true);
  view.setUint16(20, layout.kind === "pcm" ? 1 : 3, true);
  view.setUint16(22, layout.channels, true);
  view.setUint32(24, layout.sampleRate, true);
  view.setUint32(28, layout.sampleRate * frameBytes, true);
  view.setUint16(32, frameBytes, true);
  view.setUint16(34, bits, true);
  view.setUint32(36, 0x64617461); // data
  view.setUint32(40, dataBytes, true);
  const copy = new Uint8Array(file, 44);
  if (!widen) copy.set(data);
  // Offset binary to two's complement: the sign bit turns over.
  else for (let n = 0; n < data.length; n++) copy[2 * n + 1] = data[n]! ^ 0x80;
  return file;
}

/** The library reads -2^23 as +2^23. No right reading gives +1 (the highest is 1 - 2^-23), so every +1 is a -1. */
function mendLowest24(channels: readonly Float32Array[]): void {
  for (const samples of channels) {
    for (let n = 0; n < samples.length; n++) if (samples[n] === 1) samples[n] = -1;
  }
}

function checkFinite(channels: readonly Float32Array[], sampleRate: number, name: string, firstFrame: number): void {
  for (const [index, samples] of channels.entries()) {
    for (let n = 0; n < samples.length; n++) {
      if (Number.isFinite(samples[n])) continue;
      throw new InputError(`A sample of the recording is not a number: ${samples[n]!}.`, {
        where: `${name}, channel ${index + 1}, at ${((firstFrame + n) / sampleRate).toFixed(3)} s (sample ${firstFrame + n})`,
        remedy: "export the recording again, or record it again: the program that wrote it failed at this place",
      });
    }
  }
}

export function encodingOf({ kind, containerBits, validBits }: WaveLayout): string {
  if (kind === "float") return `${containerBits}-bit float`;
  return `${validBits}-bit PCM${validBits === containerBits ? "" : ` in ${containerBits}-bit words`}`;
}
