/** Cuts a stereo signal that comes in pieces of any length into overlapping frames. */
export interface FrameStream {
  readonly push: (left: Float32Array, right: Float32Array) => void;
}

/**
 * @param length - samples of a frame
 * @param hop - samples from one frame to the next, at most `length`
 * @param take - gets each full frame; its arrays are used again afterwards
 */
export function frameStream(
  length: number,
  hop: number,
  take: (left: Float64Array, right: Float64Array) => void,
): FrameStream {
  const left = new Float64Array(length);
  const right = new Float64Array(length);
  let filled = 0;
  return {
    push(newLeft, newRight) {
      let at = 0;
      while (at < newLeft.length) {
        const count = Math.min(length - filled, newLeft.length - at);
        left.set(newLeft.subarray(at, at + count), filled);
        right.set(newRight.subarray(at, at + count), filled);
        at += count;
        filled += count;
        if (filled < length) continue;
        take(left, right);
        left.copyWithin(0, hop);
        right.copyWithin(0, hop);
        filled = length - hop;
      }
    },
  };
}

/** Raised cosine without its last zero, so that frames half a length apart add up evenly. */
export function hannWindow(length: number): Float64Array {
  return Float64Array.from({ length }, (_, n) => 0.5 - 0.5 * Math.cos((2 * Math.PI * n) / length));
}
