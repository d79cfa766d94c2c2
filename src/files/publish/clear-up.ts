import { existsSync, lstatSync, mkdirSync, renameSync, rmSync } from "node:fs";
import { dirname, join } from "node:path";

import { filesBelow } from "./files-below.js";
import { putBack } from "./move-files.js";
import { abandonedWork, readJournal, type WorkFolder } from "./work-folder.js";

/** Clears up after runs that were killed outright, and puts back what one of them left unfinished. */
export function clearAbandoned(out: string): void {
  for (const work of abandonedWork(out)) {
    const journal = readJournal(work);
    if (journal && !journal.isFinished) {
      if (!existsSync(out) && existsSync(work.old)) renameSync(work.old, out);
      if (existsSync(work.before)) putBack(work, out, journal);
    }
    clearUp(work, out);
  }
}

/**
 * Removes a work folder.
 *
 * Whatever lies in it and is not ours is the user's: most of it is a second name of a file in the output folder, but someone
 * may have saved something into the old folder in its last moment. That is moved, never removed.
 */
export function clearUp(work: WorkFolder, out: string): void {
  const journal = readJournal(work);
  // Old files that could not be put back are the only copy: the next run tries again.
  if (journal && !journal.isFinished && filesBelow(work.before).length > 0) return;
  const ours = new Set(journal ? [...journal.files, ...journal.obsolete] : []);
  for (const folder of journal ? [work.fresh, work.old] : []) {
    for (const file of filesBelow(folder)) {
      const target = join(out, file);
      if (ours.has(file) || !isNewer(join(folder, file), target)) continue;
      mkdirSync(dirname(target), { recursive: true });
      renameSync(join(folder, file), target);
    }
  }
  rmSync(work.path, { recursive: true, force: true });
}

/** Whether the output folder lacks a file, or has it as it was earlier. */
function isNewer(path: string, target: string): boolean {
  const there = lstatSync(target, { throwIfNoEntry: false });
  if (!there) return true;
  const here = lstatSync(path);
  return here.ino !== there.ino && here.mtimeMs > there.mtimeMs && !here.isSymbolicLink() && !there.isDirectory();
}
