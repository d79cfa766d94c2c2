import { existsSync, lstatSync, mkdirSync, renameSync, rmSync } from "node:fs";
import { dirname, join } from "node:path";

import type { Journal, WorkFolder } from "./work-folder.js";

/**
 * Moves new files to their places one by one, for a folder that must stay the same folder.
 *
 * Synchronous: no signal that can be caught comes between. A move that fails puts back what was there.
 */
export function moveFiles(work: WorkFolder, out: string, { files, obsolete }: Journal): void {
  const undo: (() => void)[] = [];
  const move = (from: string, to: string): void => {
    mkdirSync(dirname(to), { recursive: true });
    renameSync(from, to);
    undo.push(() => {
      renameSync(to, from);
    });
  };
  try {
    // First all that is old goes, then all that is new comes: so what is still in the work folder tells how far it got.
    for (const file of new Set([...files, ...obsolete])) {
      const old = join(out, file);
      if (!existsSync(old)) continue;
      if (lstatSync(old).isDirectory()) throw Object.assign(new Error(file), { code: "EISDIR", syscall: "rename" });
      move(old, join(work.before, file));
    }
    for (const file of files) move(join(work.fresh, file), join(out, file));
  } catch (error) {
    for (const step of undo.reverse()) step();
    throw error;
  }
}

/** Puts back what a run that was killed between two moves had moved. */
export function putBack(work: WorkFolder, out: string, { files, obsolete }: Journal): void {
  for (const file of new Set([...files, ...obsolete])) {
    const before = join(work.before, file);
    const isNew = files.includes(file) && !existsSync(join(work.fresh, file));
    if (existsSync(before)) renameSync(before, join(out, file));
    else if (isNew) rmSync(join(out, file), { force: true });
  }
}
