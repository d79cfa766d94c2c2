import { chmodSync, linkSync, mkdirSync, readdirSync, readlinkSync, statSync, symlinkSync } from "node:fs";
import { join } from "node:path";

import { isWorkInside } from "./work-folder.js";

/** A folder with more of someone else's than this is not a folder of results. */
const MOST_CARRIED = 100;

/**
 * Gives a fresh output folder the files of the present one that are not ours, as second names of the same files.
 *
 * @param ours - files that the fresh folder replaces or leaves out
 * @returns false where that is not possible, or not wise; the present folder is untouched in any case
 */
export function carryOver(present: string, fresh: string, ours: ReadonlySet<string>): boolean {
  let carried = 0;
  /** Makes the folders for a thing only when there is one. */
  const carryFolder = (below: string): void => {
    const entries = readdirSync(join(present, below), { withFileTypes: true });
    if (entries.length === 0) makeAlike(below);
    for (const entry of entries) {
      const file = below === "" ? entry.name : `${below}/${entry.name}`;
      if (ours.has(file)) continue;
      if (entry.isDirectory()) {
        if (below === "" && isWorkInside(entry.name)) throw new RangeError("another run works in this folder");
        carryFolder(file);
        continue;
      }
      if (++carried > MOST_CARRIED) throw new RangeError("too much to carry");
      makeAlike(below);
      const [from, to] = [join(present, file), join(fresh, file)];
      if (entry.isSymbolicLink()) symlinkSync(readlinkSync(from), to);
      else linkSync(from, to);
    }
  };
  const makeAlike = (below: string): void => {
    mkdirSync(join(fresh, below), { recursive: true });
    chmodSync(join(fresh, below), statSync(join(present, below)).mode);
  };
  try {
    makeAlike("");
    carryFolder("");
    return true;
  } catch {
    return false;
  }
}
