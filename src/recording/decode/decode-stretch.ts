import type { SampleLayout } from "../containers/sample-layout.js";
import { refuseNoSound } from "../refuse-no-sound.js";
import { decodeAiffSamples } from "./aiff-samples.js";
import { decodeCafSamples } from "./caf-samples.js";
import { type PlainSamples, plainSamples } from "./plain-samples.js";
import { decodeWavSamples } from "./wav-samples.js";

const decoders: Record<SampleLayout["container"], (samples: PlainSamples) => readonly Float32Array[]> = {
  WAV: decodeWavSamples,
  AIFF: decodeAiffSamples,
  CAF: decodeCafSamples,
};

/** Where a stretch lies, for messages. */
export interface StretchPlace {
  readonly name: string;
  readonly firstFrame: number;
}

/**
 * Decodes a stretch of a file's samples.
 *
 * @param data - whole frames
 * @param wanted - indices of channels; null for all
 * @returns one array per wanted channel; an integer sample `k` of `b` bits is `k / 2^(b - 1)`, so the lowest is exactly
 *   -1 and the highest one step below 1. 32-bit PCM and 64-bit float are rounded to the 24 bits of a 32-bit float
 * @throws {InputError} if a sample is not finite, or no sound
 */
export function decodeStretch(
  data: Uint8Array,
  layout: SampleLayout,
  wanted: readonly number[] | null,
  { name, firstFrame }: StretchPlace,
): readonly Float32Array[] {
  const decoded = decoders[layout.container](plainSamples(data, layout, wanted));
  if (layout.kind === "float") {
    for (const [index, samples] of decoded.entries()) {
      refuseNoSound(samples, { name, firstFrame, channel: wanted?.[index] ?? index, sampleRate: layout.sampleRate });
    }
  }
  return decoded;
}
