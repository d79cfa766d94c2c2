/** A file that is read a stretch at a time. */
export interface ByteSource {
  readonly bytes: number;
  /** Up to `count` bytes from a byte on; fewer at the end. */
  read(from: number, count: number): Promise<Uint8Array>;
  close(): Promise<void>;
}

/** A stretch of a file; it may reach beyond the file's end. */
interface Stretch {
  readonly from: number;
  readonly count: number;
}

/**
 * A way of reading a header: asks for one stretch after the other and gets its bytes, fewer where the file ends.
 *
 * Written so, a header is read from memory and from disk by the same words, and of a long file only what is looked at.
 */
export type Reading<Result> = Generator<Stretch, Result, Uint8Array>;

/** Reads from a file that is in memory as a whole. */
export function readNow<Result>(bytes: Uint8Array, reading: Reading<Result>): Result {
  let step = reading.next();
  while (step.done !== true) {
    const { from, count } = step.value;
    step = reading.next(bytes.subarray(from, from + count));
  }
  return step.value;
}

/** Reads from a file on disk. */
export async function readFrom<Result>(source: ByteSource, reading: Reading<Result>): Promise<Result> {
  let step = reading.next();
  while (step.done !== true) {
    const { from, count } = step.value;
    const wanted = Math.max(0, Math.min(count, source.bytes - from));
    step = reading.next(wanted > 0 ? await source.read(from, wanted) : new Uint8Array());
  }
  return step.value;
}

/** Asks for a stretch; an errand of its own, since only a generator may ask. */
export function* stretch(from: number, count: number): Reading<DataView> {
  const bytes = yield { from, count };
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}

/** Text of `length` bytes from `at`; shorter where the bytes end. */
export function asciiAt(bytes: DataView, at: number, length: number): string {
  const end = Math.min(at + length, bytes.byteLength);
  let text = "";
  for (let n = at; n < end; n++) text += String.fromCharCode(bytes.getUint8(n));
  return text;
}
