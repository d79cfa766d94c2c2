/** Other sound files than those that are read, told apart by their first bytes. */

import { asciiAt } from "./reading.js";

const CONVERT = "convert it to WAV (24-bit PCM or 32-bit float) at the same sample rate and without changing its level";

interface Signature {
  readonly at: number;
  readonly text: string;
  readonly is: string;
  readonly remedy: string;
}

const signatures: readonly Signature[] = [
  { at: 0, text: "RIFX", is: "a big-endian RIFX file", remedy: CONVERT },
  { at: 0, text: "riff", is: "a Wave64 file", remedy: CONVERT },
  { at: 0, text: "wvpk", is: "a WavPack file", remedy: CONVERT },
  { at: 0, text: "OggS", is: "an Ogg file", remedy: lossy("Ogg") },
  { at: 4, text: "ftyp", is: "an MPEG-4 file", remedy: lossy("MPEG-4") },
  { at: 0, text: "ID3", is: "an MP3 file", remedy: lossy("MP3") },
  { at: 0, text: "PK\x03\x04", is: "a ZIP archive", remedy: "unpack it and name the recording that is in it" },
];

function lossy(format: string): string {
  return `record again as WAV: what ${format} leaves out of a sweep cannot be put back`;
}

/**
 * Names a file that is not read.
 *
 * @param head - its first bytes, twelve or fewer
 * @returns what the file is, ready to stand after "This is", and what to do with it
 */
export function nameForeignContainer(head: DataView): { is: string; remedy: string } {
  if (head.byteLength === 0) return { is: "an empty file", remedy: "copy or record it again" };
  for (const { at, text, is, remedy } of signatures) {
    if (asciiAt(head, at, text.length) === text) return { is, remedy };
  }
  // An MPEG audio frame begins with eleven set bits; layer bits 01 are layer III (00 is ADTS: AAC).
  const [first, second] = head.byteLength > 1 ? [head.getUint8(0), head.getUint8(1)] : [0, 0];
  if (first === 0xff && (second & 0xe0) === 0xe0) {
    if ((second & 0x06) === 0x02) return { is: "an MP3 file", remedy: lossy("MP3") };
    if ((second & 0xf6) === 0xf0) return { is: "an AAC file", remedy: lossy("AAC") };
  }
  return { is: "no sound file", remedy: "name a WAV recording here, or export it again as WAV" };
}
