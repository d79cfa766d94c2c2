/** Pieces that are written one after the other, each while the next is made. */
export interface WriteBehind {
  /** Waits for the piece before; what was wrong with that one is thrown here. */
  write(bytes: Uint8Array): Promise<void>;
  /** Waits for the last piece. */
  end(): Promise<void>;
}

/** @param put - writes all of a piece; its bytes may not be used again */
export function writeBehind(put: (bytes: Uint8Array) => Promise<void>): WriteBehind {
  let before = Promise.resolve();
  return {
    async write(bytes) {
      await before;
      before = put(bytes);
      // Told by whoever waits for it.
      before.catch(() => undefined);
    },
    end: () => before,
  };
}
