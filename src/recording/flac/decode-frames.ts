/** Frames of FLAC that follow each other. */
interface FrameRun {
  /** Number of the first one in the file, from 0. */
  readonly first: number;
  readonly frames: readonly Uint8Array[];
  readonly channels: number;
  readonly samples: number;
}

export interface FrameDecoder {
  /** @returns one array per channel; null if the frames do not hold what their headers say */
  decode(run: FrameRun): Promise<Float32Array[] | null>;
  close(): void;
}

/**
 * Opens a decoder of FLAC frames; the only door to the decoding library.
 *
 * The library sees single frames that were found and held against their checksums before. It divides by the highest
 * step, `2^(bits - 1) - 1`, where all our other formats divide by `2^(bits - 1)`. Its 32-bit floats are off by less
 * than a quarter of a step up to 24 bits, so the step is read back from them exactly.
 */
export async function openFrameDecoder(bits: number): Promise<FrameDecoder> {
  // It takes 40 modules and a tenth of a second, which the other formats need not wait for.
  const { FLACDecoder } = await import("@wasm-audio-decoders/flac");
  const decoder = new FLACDecoder();
  await decoder.ready;
  const half = 2 ** (bits - 1);
  let next = 0;
  return {
    async decode({ first, frames, channels, samples }) {
      // To the library a jump is a missing frame.
      if (first !== next) await decoder.reset();
      next = first + frames.length;
      const { channelData, errors } = await decoder.decodeFrames([...frames]);
      const isWhole = channelData.length === channels && channelData.every((channel) => channel.length === samples);
      if (errors.length > 0 || !isWhole) return null;
      for (const channel of channelData) {
        for (let n = 0; n < samples; n++) channel[n] = Math.round(channel[n]! * (half - 1)) / half;
      }
      return channelData;
    },
    close: () => {
      decoder.free();
    },
  };
}
