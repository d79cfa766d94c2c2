import wavDecoder from "wav-decoder";

import type { PlainSamples } from "./plain-samples.js";

/**
 * Decodes the samples of a WAV file; the only door to the decoding library.
 *
 * The library sees nothing but a minimal file that we lay out for it, because what it does with others was measured:
 * it refuses extensible headers, does not pad odd chunks and throws a bare RangeError on a truncated file.
 */
export function decodeWavSamples(samples: PlainSamples): readonly Float32Array[] {
  const { channelData } = wavDecoder.decode.sync(minimalFile(samples), { symmetric: true });
  if (samples.kind === "pcm" && samples.bits === 24) mendLowest24(channelData);
  return channelData;
}

/** RIFF header, 16-byte format chunk, data chunk. */
function minimalFile({ bytes, bits, channels, sampleRate, kind }: PlainSamples): ArrayBuffer {
  const file = new ArrayBuffer(44 + bytes.length);
  const view = new DataView(file);
  const frameBytes = (channels * bits) / 8;
  view.setUint32(0, 0x52494646); // RIFF
  view.setUint32(4, 36 + bytes.length, true);
  view.setUint32(8, 0x57415645); // WAVE
  view.setUint32(12, 0x666d7420); // fmt
  view.setUint32(16, 16, true);
  view.setUint16(20, kind === "pcm" ? 1 : 3, true);
  view.setUint16(22, channels, true);
  view.setUint32(24, sampleRate, true);
  view.setUint32(28, sampleRate * frameBytes, true);
  view.setUint16(32, frameBytes, true);
  view.setUint16(34, bits, true);
  view.setUint32(36, 0x64617461); // data
  view.setUint32(40, bytes.length, true);
  new Uint8Array(file, 44).set(bytes);
  return file;
}

/** The library reads -2^23 as +2^23. No right reading gives +1 (the highest is 1 - 2^-23), so every +1 is a -1. */
function mendLowest24(channels: readonly Float32Array[]): void {
  for (const samples of channels) {
    for (let n = samples.indexOf(1); n >= 0; n = samples.indexOf(1, n + 1)) samples[n] = -1;
  }
}
