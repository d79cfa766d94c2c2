import { InputError } from "../../errors.js";
import { readAiff } from "./aiff.js";
import { readCaf } from "./caf.js";
import { nameForeignContainer } from "./foreign-container.js";
import { asciiAt, type Reading, stretch } from "./reading.js";
import { readRiff } from "./riff.js";
import type { SampleLayout } from "./sample-layout.js";

/** Tells files of sound apart by their first bytes, whatever their names end in. */
export type Container = "RIFF" | "RF64" | "AIFF" | "CAF" | "FLAC";

/** @throws {InputError} if it is none that is read */
export function* findContainer(name: string): Reading<Container> {
  const head = yield* stretch(0, 12);
  const first = asciiAt(head, 0, 4);
  const form = asciiAt(head, 8, 4);
  if (first === "RIFF" && form === "WAVE") return "RIFF";
  if ((first === "RF64" || first === "BW64") && form === "WAVE") return "RF64";
  if (first === "FORM" && (form === "AIFF" || form === "AIFC")) return "AIFF";
  if (first === "caff") return "CAF";
  if (first === "fLaC") return "FLAC";
  const { is, remedy } = nameForeignContainer(head);
  throw new InputError(`This is ${is}; recordings are read from WAV, FLAC, AIFF and CAF files.`, {
    where: name,
    remedy,
  });
}

/**
 * Finds the samples in a file of uncompressed sound.
 *
 * @param fileBytes - length of the whole file
 * @throws {InputError} if it is damaged, compressed or empty
 */
export function* findLayout(
  container: Exclude<Container, "FLAC">,
  fileBytes: number,
  name: string,
): Reading<SampleLayout> {
  if (container === "AIFF") return yield* readAiff(fileBytes, name);
  if (container === "CAF") return yield* readCaf(fileBytes, name);
  return yield* readRiff(container === "RF64", fileBytes, name);
}
