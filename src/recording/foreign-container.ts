/** Other sound files than RIFF/WAVE, told apart by their first bytes. */

const CONVERT = "convert it to WAV (24-bit PCM or 32-bit float) at the same sample rate and without changing its level";

interface Signature {
  readonly at: number;
  readonly text: string;
  readonly is: string;
  readonly remedy: string;
}

const signatures: readonly Signature[] = [
  { at: 0, text: "fLaC", is: "a FLAC file", remedy: CONVERT },
  { at: 8, text: "AIFF", is: "an AIFF file", remedy: CONVERT },
  { at: 8, text: "AIFC", is: "an AIFF-C file", remedy: CONVERT },
  { at: 0, text: "caff", is: "a CAF file", remedy: CONVERT },
  { at: 0, text: "RF64", is: "an RF64 file (WAV beyond 4 GB)", remedy: `cut out the sweep and ${CONVERT}` },
  { at: 0, text: "BW64", is: "a BW64 file (WAV beyond 4 GB)", remedy: `cut out the sweep and ${CONVERT}` },
  { at: 0, text: "RIFX", is: "a big-endian RIFX file", remedy: CONVERT },
  { at: 0, text: "riff", is: "a Wave64 file", remedy: CONVERT },
  { at: 0, text: "OggS", is: "an Ogg file", remedy: lossy("Ogg") },
  { at: 4, text: "ftyp", is: "an MPEG-4 file", remedy: lossy("MPEG-4") },
  { at: 0, text: "ID3", is: "an MP3 file", remedy: lossy("MP3") },
];

function lossy(format: string): string {
  return `record again as WAV: what ${format} leaves out of a sweep cannot be put back`;
}

/**
 * Names a file that is no RIFF/WAVE file.
 *
 * @param bytes - the file, any length
 * @returns what the file is, ready to stand after "This is", and what to do with it
 */
export function nameForeignContainer(bytes: Uint8Array): { is: string; remedy: string } {
  if (bytes.length === 0) return { is: "an empty file", remedy: "copy or record it again" };
  for (const { at, text, is, remedy } of signatures) {
    if (asciiAt(bytes, at, text.length) === text) return { is, remedy };
  }
  // An MPEG audio frame begins with eleven set bits; layer bits 01 are layer III (00 is ADTS: AAC).
  if (bytes.length > 1 && bytes[0] === 0xff && (bytes[1]! & 0xe0) === 0xe0) {
    if ((bytes[1]! & 0x06) === 0x02) return { is: "an MP3 file", remedy: lossy("MP3") };
    if ((bytes[1]! & 0xf6) === 0xf0) return { is: "an AAC file", remedy: lossy("AAC") };
  }
  return { is: "not a WAV file", remedy: "name a WAV recording here, or export it again as WAV" };
}

/** Text of `length` bytes from `at`; shorter where the file ends. */
export function asciiAt(bytes: Uint8Array, at: number, length: number): string {
  return String.fromCharCode(...bytes.subarray(at, at + length));
}
