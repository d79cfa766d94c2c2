import { createHash } from "node:crypto";
import { readFile } from "node:fs/promises";

import type { SessionFiles } from "../pipeline.js";
import { openBytes } from "./byte-source.js";
import { findInside, unreadable } from "./inside-folder.js";

/** The files of a session's folder, and nothing outside it. */
export function sessionFiles(folder: string): SessionFiles {
  return {
    async read(file) {
      const path = await findInside(folder, file);
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
