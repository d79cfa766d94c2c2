import { createHash } from "node:crypto";
import { readFile, stat } from "node:fs/promises";

import { InputError } from "../errors.js";
import type { SessionFiles } from "../pipeline.js";
import { openBytes } from "./byte-source.js";
import { findInside, unreadable } from "./inside-folder.js";
import { LARGEST_TEXT } from "./largest-text.js";

/** The files of a session's folder, and nothing outside it. */
export function sessionFiles(folder: string): SessionFiles {
  return {
    async read(file) {
      const path = await findInside(folder, file);
      if ((await stat(path)).size > LARGEST_TEXT) throw tooLarge(file);
      try {
        return await readFile(path);
      } catch (error) {
        throw unreadable(file, error);
      }
    },
    async open(file) {
      const path = await findInside(folder, file);
      try {
        return await openBytes(path);
      } catch (error) {
        throw unreadable(file, error);
      }
    },
    sha256() {
      const hash = createHash("sha256");
      return {
        add: (bytes) => {
          hash.update(bytes);
        },
        hex: () => hash.digest("hex"),
      };
    },
  };
}

function tooLarge(file: string): InputError {
  return new InputError("The file is larger than any recipe or table.", {
    where: file,
    remedy: "name the recipe or table that was meant; a sound file is told by its ending (.wav, .flac, .aif, .caf)",
  });
}
