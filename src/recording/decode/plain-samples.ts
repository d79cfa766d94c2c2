import type { SampleLayout } from "../containers/sample-layout.js";

/** Samples as a decoding library gets them, frame after frame. */
export interface PlainSamples {
  readonly bytes: Uint8Array;
  /** 16, 24, 32 or 64: signed integers, or floats. */
  readonly bits: number;
  readonly channels: number;
  readonly sampleRate: number;
  readonly kind: SampleLayout["kind"];
  readonly bigEndian: boolean;
}

/**
 * Takes the wanted channels out of a stretch of a file.
 *
 * Integers of 8 bits become the upper byte of 16: formats and libraries disagree on where their zero lies (the one for
 * WAV puts it at 127.5, the one for AIFF reads them without their sign), and on 16 bits they agree.
 *
 * @param data - whole frames
 * @param wanted - indices of channels; null for all
 */
export function plainSamples(data: Uint8Array, layout: SampleLayout, wanted: readonly number[] | null): PlainSamples {
  const { containerBits, channels, sampleRate, kind, bigEndian, offsetBinary } = layout;
  const sampleBytes = containerBits / 8;
  const frameBytes = channels * sampleBytes;
  const picked = wanted ?? Array.from({ length: channels }, (_, index) => index);
  const common = { channels: picked.length, sampleRate, kind, bigEndian };
  if (sampleBytes > 1) {
    const all = picked.length === channels && picked.every((channel, index) => channel === index);
    const bytes = all ? data : new Uint8Array((data.length / channels) * picked.length);
    if (!all) copyChannels(data, bytes, frameBytes, sampleBytes, picked);
    return { ...common, bytes, bits: containerBits };
  }
  const narrow = new Uint8Array((data.length / channels) * picked.length);
  copyChannels(data, narrow, frameBytes, 1, picked);
  const bytes = new Uint8Array(2 * narrow.length);
  // Offset binary to two's complement: the sign bit turns over.
  const turn = offsetBinary ? 0x80 : 0;
  for (let n = 0, at = bigEndian ? 0 : 1; n < narrow.length; n++, at += 2) bytes[at] = narrow[n]! ^ turn;
  return { ...common, bytes, bits: 16 };
}

function copyChannels(
  from: Uint8Array,
  to: Uint8Array,
  frameBytes: number,
  sampleBytes: number,
  wanted: readonly number[],
): void {
  const step = wanted.length * sampleBytes;
  for (const [index, channel] of wanted.entries()) {
    let target = index * sampleBytes;
    for (let source = channel * sampleBytes; source < from.length; source += frameBytes, target += step) {
      for (let n = 0; n < sampleBytes; n++) to[target + n] = from[source + n]!;
    }
  }
}
