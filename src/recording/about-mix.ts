import { InputError } from "../errors.js";

/** What is said of recordings does not help with a mix: nobody needs to record anything again. */
export function aboutMix(error: InputError): InputError {
  const message = error.message
    .replace("; recordings are read from", "; a mix is read from")
    .replace("of the recording", "of the mix");
  return new InputError(message, {
    where: error.where,
    remedy: "export the mix as a WAV file (24-bit or 32-bit float, mono or stereo)",
  });
}
