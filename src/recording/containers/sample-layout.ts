import { InputError } from "../../errors.js";

/** Where the samples of an uncompressed sound file lie, and how they are stored. */
export interface SampleLayout {
  readonly container: "WAV" | "AIFF" | "CAF";
  readonly kind: "pcm" | "float";
  readonly bigEndian: boolean;
  /** Whether the middle of the range is stored as half of it: 8-bit WAV, and AIFF-C of the kind "raw". */
  readonly offsetBinary: boolean;
  /** Bits of one sample's container: 8, 16, 24, 32 (PCM) or 32, 64 (float). */
  readonly containerBits: number;
  /** Bits that carry sound; they are the upper ones of the container. */
  readonly validBits: number;
  readonly channels: number;
  readonly sampleRate: number;
  readonly dataStart: number;
  /** Whole frames only: a multiple of the frame's size. */
  readonly dataBytes: number;
  /** The header's length was never written: it was taken from the file's. */
  readonly lengthFromFile: boolean;
}

/** What the header says of the samples. */
export type SampleFormat = Omit<SampleLayout, "dataStart" | "dataBytes" | "lengthFromFile">;

const LOWEST_RATE = 8000;
const HIGHEST_RATE = 384_000;
/** More than any desk records at once; what claims more is no recording. A choice of ours. */
const MOST_CHANNELS = 128;

export function frameBytesOf({ channels, containerBits }: Pick<SampleLayout, "channels" | "containerBits">): number {
  return (channels * containerBits) / 8;
}

/** @throws {InputError} if no recording is like this */
export function checkFormat(format: SampleFormat, name: string): SampleFormat {
  const { container, kind, validBits, containerBits, channels, sampleRate } = format;
  checkChannelsAndRate(container, channels, sampleRate, name);
  const known = kind === "pcm" ? validBits >= 8 && containerBits <= 32 : containerBits === 32 || containerBits === 64;
  if (known) return format;
  throw new InputError(`The ${container} file stores ${validBits}-bit ${inWords(kind)}, which is not read.`, {
    where: name,
    remedy: "export it again as 16-bit, 24-bit or 32-bit float WAV",
  });
}

/** @throws {InputError} if no recording has so many channels, or such a sample rate */
export function checkChannelsAndRate(container: string, channels: number, sampleRate: number, name: string): void {
  if (channels === 0) throw contradiction(container, "it claims to have no channels", name);
  if (channels > MOST_CHANNELS) {
    const what = `it claims to have ${channels} channels; up to ${MOST_CHANNELS} are accepted`;
    throw contradiction(container, what, name);
  }
  if (!(sampleRate >= LOWEST_RATE && sampleRate <= HIGHEST_RATE)) {
    const claimed = Number.isFinite(sampleRate)
      ? `a sample rate of ${sampleRate} Hz`
      : "a sample rate that is no number";
    throw contradiction(container, `it claims ${claimed}; ${LOWEST_RATE} to ${HIGHEST_RATE} Hz is accepted`, name);
  }
}

export function contradiction(container: string, what: string, name: string): InputError {
  return new InputError(`The header of the ${container} file makes no sense: ${what}.`, {
    where: name,
    remedy: "export the file again as WAV, or copy it again from the recorder",
  });
}

export function encodingOf({ kind, containerBits, validBits }: Omit<SampleFormat, "container">): string {
  if (kind === "float") return `${containerBits}-bit float`;
  return `${validBits}-bit PCM${validBits === containerBits ? "" : ` in ${containerBits}-bit words`}`;
}

function inWords(kind: SampleLayout["kind"]): string {
  return kind === "pcm" ? "PCM" : "float";
}
