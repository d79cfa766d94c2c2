import decodeCaf from "@audio/decode-caf";

import type { PlainSamples } from "./plain-samples.js";

/**
 * Decodes the samples of a CAF file; the only door to the decoding library.
 *
 * The library sees nothing but a minimal file that we lay out for it: with others it passes over missing samples and
 * chunks that run beyond the file's end without a word.
 */
export function decodeCafSamples(samples: PlainSamples): readonly Float32Array[] {
  return decodeCaf(minimalFile(samples)).channelData;
}

/** File header, desc chunk, data chunk with its count of edits. */
function minimalFile({ bytes, bits, channels, sampleRate, kind, bigEndian }: PlainSamples): Uint8Array {
  const file = new Uint8Array(68 + bytes.length);
  const view = new DataView(file.buffer);
  view.setUint32(0, 0x63616666); // caff
  view.setUint16(4, 1);
  view.setUint32(8, 0x64657363); // desc
  view.setUint32(16, 32);
  view.setFloat64(20, sampleRate);
  view.setUint32(28, 0x6c70636d); // lpcm
  view.setUint32(32, (kind === "float" ? 1 : 0) + (bigEndian ? 0 : 2));
  view.setUint32(36, (channels * bits) / 8);
  view.setUint32(40, 1);
  view.setUint32(44, channels);
  view.setUint32(48, bits);
  view.setUint32(52, 0x64617461); // data
  view.setUint32(60, 4 + bytes.length);
  file.set(bytes, 68);
  return file;
}
