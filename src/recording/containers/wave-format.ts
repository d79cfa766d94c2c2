import { InputError } from "../../errors.js";
import type { Chunk } from "./chunks.js";
import { asciiAt, type Reading, stretch } from "./reading.js";
import { contradiction, type SampleFormat } from "./sample-layout.js";

/** What follows the format tag in the GUID of an extensible header's sub-format. */
const SUBFORMAT_TAIL = "\x00\x00\x00\x00\x10\x00\x80\x00\x00\xaa\x00\x38\x9b\x71";
const EXTENSIBLE = 0xfffe;

const codecs = new Map([
  [0x0002, "Microsoft ADPCM"],
  [0x0006, "A-law"],
  [0x0007, "mu-law"],
  [0x0011, "IMA ADPCM"],
  [0x0031, "GSM 6.10"],
  [0x0050, "MPEG audio"],
  [0x0055, "MP3"],
  [0x00ff, "AAC"],
  [0x0161, "Windows Media Audio"],
]);

/**
 * Reads the format chunk of a WAV file.
 *
 * @throws {InputError} if the samples are compressed, or the chunk contradicts itself
 * @remarks Source: the extensible header: WAVEFORMATEXTENSIBLE, samples left-justified in their containers (from memory)
 */
export function* readWaveFormat({ start, presentBytes }: Chunk, name: string): Reading<SampleFormat> {
  if (presentBytes < 16) {
    throw contradiction("WAV", `its format chunk has ${presentBytes} bytes, at least 16 are needed`, name);
  }
  const content = yield* stretch(start, Math.min(presentBytes, 40));
  let tag = content.getUint16(0, true);
  const channels = content.getUint16(2, true);
  const sampleRate = content.getUint32(4, true);
  const frameBytes = content.getUint16(12, true);
  const bits = content.getUint16(14, true);
  let validBits = bits;
  if (tag === EXTENSIBLE) {
    if (presentBytes < 40) {
      throw contradiction("WAV", `its extensible format chunk has ${presentBytes} bytes, 40 are needed`, name);
    }
    // 0 stands for "all of them", and writers leave it so.
    validBits = content.getUint16(18, true) || bits;
    tag = asciiAt(content, 26, 14) === SUBFORMAT_TAIL ? content.getUint16(24, true) : EXTENSIBLE;
  }
  if (tag !== 1 && tag !== 3) throw compressed(tag, name);
  const kind = tag === 1 ? "pcm" : "float";
  const containerBits = Math.ceil(bits / 8) * 8;
  if (channels > 0 && bits > 0 && frameBytes * 8 !== channels * containerBits) {
    const frame = `${channels} channel(s) of ${bits} bits`;
    throw contradiction("WAV", `a frame of ${frame} cannot take ${frameBytes} bytes (block align)`, name);
  }
  if (kind === "float" || validBits > bits || validBits < 8) validBits = bits;
  const offsetBinary = containerBits === 8;
  return { container: "WAV", kind, bigEndian: false, offsetBinary, containerBits, validBits, channels, sampleRate };
}

function compressed(tag: number, name: string): InputError {
  const codec = codecs.get(tag) ?? `a codec that is not read (format tag 0x${tag.toString(16).padStart(4, "0")})`;
  return new InputError(`The WAV file is stored as ${codec}, not as plain PCM or float samples.`, {
    where: name,
    remedy: "record again as 24-bit PCM or 32-bit float WAV: a lossy codec changes what is measured",
  });
}
