import { lstatSync } from "node:fs";
import { join } from "node:path";

import { InputError } from "../../errors.js";

/**
 * Refuses to write through a link that stands in the place of a folder of ours: it leads out of the output folder.
 *
 * @param files - relative to the folder with "/"
 */
export function refuseLinks(out: string, files: readonly string[]): void {
  const folders = new Set(files.flatMap((file) => [...file.matchAll(/\//g)].map(({ index }) => file.slice(0, index))));
  for (const folder of folders) {
    if (lstatSync(join(out, folder), { throwIfNoEntry: false })?.isSymbolicLink() !== true) continue;
    throw new InputError(`The output folder holds a link "${folder}", which leads elsewhere.`, {
      where: join(out, folder),
      remedy: "remove the link, or give another output folder",
    });
  }
}
