import decodeAiff from "@audio/decode-aiff";

import type { PlainSamples } from "./plain-samples.js";

/**
 * Decodes the samples of an AIFF file; the only door to the decoding library.
 *
 * The library sees nothing but a minimal file that we lay out for it, because what it does with others was measured: it
 * reads 8-bit samples without their sign, and answers a file it cannot read with no sound and no reason.
 */
export function decodeAiffSamples(samples: PlainSamples): readonly Float32Array[] {
  return decodeAiff(minimalFile(samples)).channelData;
}

/** FORM header, COMM chunk of AIFF-C with the kind of samples, SSND chunk. */
function minimalFile({ bytes, bits, channels, sampleRate, kind, bigEndian }: PlainSamples): Uint8Array {
  const file = new Uint8Array(58 + bytes.length);
  const view = new DataView(file.buffer);
  const text = (at: number, value: string): void => {
    for (let n = 0; n < value.length; n++) file[at + n] = value.charCodeAt(n);
  };
  text(0, "FORM");
  view.setUint32(4, file.length - 8);
  text(8, "AIFCCOMM");
  view.setUint32(16, 22);
  view.setUint16(20, channels);
  view.setUint32(22, (bytes.length * 8) / (bits * channels));
  view.setUint16(26, bits);
  // An 80-bit float: a whole number of 64 bits times a power of two.
  view.setUint16(28, 16_383 + 63);
  view.setUint32(34, sampleRate);
  text(38, kind === "float" ? `fl${bits}` : bigEndian ? "NONE" : "sowt");
  text(42, "SSND");
  view.setUint32(46, 8 + bytes.length);
  file.set(bytes, 58);
  return file;
}
