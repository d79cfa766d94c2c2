import { InputError } from "../errors.js";
import type { DecodedAudio } from "../model.js";
import { findContainer, findLayout } from "./containers/find-layout.js";
import { readNow } from "./containers/reading.js";
import { encodingOf } from "./containers/sample-layout.js";
import { decodeStretch } from "./decode/decode-stretch.js";

/**
 * Decodes a WAV file that is in memory as a whole.
 *
 * @param bytes - the whole file
 * @param name - the file's name, for messages
 * @returns one array per channel; an integer sample `k` of `b` bits is `k / 2^(b - 1)`, so the lowest is exactly -1 and
 *   the highest one step below 1. 32-bit PCM and 64-bit float are rounded to the 24 bits of a 32-bit float
 * @throws {InputError} for everything that is not a whole, readable WAV file with finite samples; nothing else is thrown
 * @example decodeWav(mono 16-bit file with samples 0, 16384, -32768, "a.wav").channels[0] // [0, 0.5, -1]
 */
export function decodeWav(bytes: Uint8Array, name: string): DecodedAudio {
  const container = readNow(bytes, findContainer(name));
  if (container !== "RIFF" && container !== "RF64") {
    throw new InputError(`This is ${container === "AIFF" ? "an" : "a"} ${container} file, not a WAV file.`, {
      where: name,
      remedy: "name a WAV file, or convert it to one without changing its level",
    });
  }
  const layout = readNow(bytes, findLayout(container, bytes.length, name));
  const data = bytes.subarray(layout.dataStart, layout.dataStart + layout.dataBytes);
  return {
    sampleRate: layout.sampleRate,
    channels: decodeStretch(data, layout, null, { name, firstFrame: 0 }),
    encoding: encodingOf(layout),
  };
}
