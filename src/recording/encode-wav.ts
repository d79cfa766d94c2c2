import type { SampleFormat } from "../model.js";

const BITS: Record<SampleFormat, number> = { pcm16: 16, pcm24: 24, float32: 32 };

/**
 * Encodes a WAV file.
 *
 * PCM is rounded to the nearest step of `2^(1 - bits)` without dither and clipped at full scale, whose upper end is one
 * step below 1; float keeps what lies beyond. PCM gets a plain header, float the tag 3 with the fact chunk it asks for.
 *
 * @param channels - at least one, all of the same length, linear amplitude with full scale 1
 * @param sampleRate - Hz, a whole number greater than 0
 * @param format - how samples are stored
 * @returns the whole file
 * @throws {RangeError} if there is no channel, lengths differ, a sample is not finite, or the file would pass 4 GB
 * @example encodeWav([new Float32Array([0.5, -1])], 48_000, "pcm16") // 44 bytes of header, then 00 40 00 80
 */
export function encodeWav(
  channels: readonly (Float32Array | Float64Array)[],
  sampleRate: number,
  format: SampleFormat,
): Uint8Array {
  const length = checkChannels(channels, sampleRate);
  const header = wavHeader({ channels: channels.length, frames: length, sampleRate, format });
  const body = encodeFrames(channels, format);
  // Chunks are padded to an even size.
  const file = new Uint8Array(header.length + body.length + (body.length % 2));
  file.set(header);
  file.set(body, header.length);
  return file;
}

/** What the header of a WAV file says. */
export interface WavDescription {
  readonly channels: number;
  readonly frames: number;
  readonly sampleRate: number;
  readonly format: SampleFormat;
}

/**
 * The bytes before the samples of a WAV file.
 *
 * @throws {RangeError} if the file would pass 4 GB
 */
export function wavHeader({ channels, frames, sampleRate, format }: WavDescription): Uint8Array {
  const bytesPerSample = BITS[format] / 8;
  const frameBytes = channels * bytesPerSample;
  const dataBytes = frames * frameBytes;
  const isFloat = format === "float32";
  // The format chunk of anything but PCM ends with the (zero) size of an extension.
  const formatBytes = isFloat ? 18 : 16;
  const dataStart = 20 + formatBytes + (isFloat ? 12 : 0) + 8;
  const fileBytes = dataStart + dataBytes + (dataBytes % 2);
  if (fileBytes - 8 > 0xffff_ffff || frameBytes > 0xffff) {
    throw new RangeError(`${channels} channels of ${frames} samples do not fit into a WAV file`);
  }

  const view = new DataView(new ArrayBuffer(dataStart));
  view.setUint32(0, 0x52494646); // RIFF
  view.setUint32(4, fileBytes - 8, true);
  view.setUint32(8, 0x57415645); // WAVE
  view.setUint32(12, 0x666d7420); // fmt
  view.setUint32(16, formatBytes, true);
  view.setUint16(20, isFloat ? 3 : 1, true);
  view.setUint16(22, channels, true);
  view.setUint32(24, sampleRate, true);
  view.setUint32(28, sampleRate * frameBytes, true);
  view.setUint16(32, frameBytes, true);
  view.setUint16(34, BITS[format], true);
  if (isFloat) {
    view.setUint32(38, 0x66616374); // fact
    view.setUint32(42, 4, true);
    view.setUint32(46, frames, true);
  }
  view.setUint32(dataStart - 8, 0x64617461); // data
  view.setUint32(dataStart - 4, dataBytes, true);
  return new Uint8Array(view.buffer);
}

/**
 * The bytes of a stretch of samples, frame after frame.
 *
 * @param channels - at least one, all of the same length
 * @throws {RangeError} if a sample is not finite
 */
export function encodeFrames(channels: readonly (Float32Array | Float64Array)[], format: SampleFormat): Uint8Array {
  const bytesPerSample = BITS[format] / 8;
  const frameBytes = channels.length * bytesPerSample;
  const bytes = new Uint8Array((channels[0]?.length ?? 0) * frameBytes);
  for (const [index, samples] of channels.entries()) {
    checkFinite(samples);
    const start = index * bytesPerSample;
    if (format === "float32") writeFloats(bytes, start, frameBytes, samples);
    else writeSteps(bytes, start, frameBytes, samples, bytesPerSample);
  }
  return bytes;
}

function checkFinite(samples: Float32Array | Float64Array): void {
  // Zero times a finite number is zero, times any other it is none: asked once for all, this costs a quarter.
  let zero = 0;
  for (let n = 0; n < samples.length; n++) zero += 0 * samples[n]!;
  if (zero === 0) return;
  const index = samples.findIndex((sample) => !Number.isFinite(sample));
  throw new RangeError(`sample ${index} is ${samples[index]}, not a finite number`);
}

function writeFloats(
  bytes: Uint8Array<ArrayBuffer>,
  start: number,
  frameBytes: number,
  samples: Float32Array | Float64Array,
): void {
  const view = new DataView(bytes.buffer);
  for (let n = 0, at = start; n < samples.length; n++, at += frameBytes) view.setFloat32(at, samples[n]!, true);
}

/** Whole numbers of two or three bytes, the lowest first. */
function writeSteps(
  bytes: Uint8Array,
  start: number,
  frameBytes: number,
  samples: Float32Array | Float64Array,
  bytesPerSample: number,
): void {
  const scale = 2 ** (8 * bytesPerSample - 1);
  for (let n = 0, at = start; n < samples.length; n++, at += frameBytes) {
    // Halves up, as Math.round does it, which takes twice as long; clipped by comparing, for the same reason.
    const rounded = Math.floor(samples[n]! * scale + 0.5);
    const step = (rounded < -scale ? -scale : rounded >= scale ? scale - 1 : rounded) | 0;
    bytes[at] = step;
    bytes[at + 1] = step >> 8;
    if (bytesPerSample === 3) bytes[at + 2] = step >> 16;
  }
}

function checkChannels(channels: readonly (Float32Array | Float64Array)[], sampleRate: number): number {
  const length = channels[0]?.length;
  if (length === undefined) throw new RangeError("a WAV file needs at least one channel");
  const other = channels.find((samples) => samples.length !== length);
  if (other) throw new RangeError(`channels of ${length} and ${other.length} samples cannot share a WAV file`);
  if (!Number.isInteger(sampleRate) || sampleRate <= 0 || sampleRate > 0xffff_ffff) {
    throw new RangeError(`sample rate ${sampleRate} is not a whole number of Hz greater than 0`);
  }
  return length;
}
