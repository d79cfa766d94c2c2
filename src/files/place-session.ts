import { copyFileSync, existsSync, linkSync, readdirSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";

import { InputError } from "../errors.js";
import type { SessionText } from "../schema/session.js";
import { refusedByDisk } from "./publish/refused-by-disk.js";
import { isAbandoned } from "./publish/work-folder.js";
import { sessionInText } from "./session-in-text.js";

const NAME = "session.json";
const PASSING = "session.json.copy";

/** Whether the folder is a session already. */
export function holdsSession(folder: string): boolean {
  return existsSync(join(folder, NAME));
}

/**
 * Writes session.json into a folder. At any moment the folder holds the old one or the new one, whole.
 *
 * @param replaces - an old one gives way, and a copy of it stays under a name of its own
 * @returns the name of that copy; null if there was no old one
 * @throws {InputError} if there is an old one that must not give way, or if the disk refuses
 */
export function placeSession(folder: string, session: SessionText, replaces: boolean): string | null {
  const path = join(folder, NAME);
  const fresh = `${path}.${process.pid}.part`;
  try {
    clearAbandoned(folder);
    writeFileSync(fresh, sessionInText(session));
    if (!replaces || !existsSync(path)) {
      // A link is made only where nothing is: nobody's session can be lost between looking and writing.
      named(fresh, path);
      return null;
    }
    const copy = freeName(folder);
    named(path, join(folder, copy));
    renameSync(fresh, path);
    return copy;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "EEXIST") throw alreadyThere(folder);
    throw refusedByDisk(error, folder, folder);
  } finally {
    rmSync(fresh, { force: true });
  }
}

export function alreadyThere(folder: string): InputError {
  return new InputError(`The folder already holds a ${NAME}; nothing was written.`, {
    where: join(folder, NAME),
    remedy: "edit it, or add --force: then it is replaced, and a copy of it stays beside it",
  });
}

/** Gives a file a second name. Where the disk knows no second names, a copy under a passing name takes it. */
function named(from: string, to: string): void {
  try {
    linkSync(from, to);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === "EEXIST" || existsSync(to)) throw error;
    const passing = join(dirname(to), `${PASSING}.${process.pid}.part`);
    copyFileSync(from, passing);
    renameSync(passing, to);
  }
}

/** What runs that were killed outright had not yet given its name. */
function clearAbandoned(folder: string): void {
  for (const entry of readdirSync(folder)) {
    if (isAbandoned(entry, NAME) || isAbandoned(entry, PASSING)) rmSync(join(folder, entry), { force: true });
  }
}

function freeName(folder: string): string {
  for (let count = 1; ; count++) {
    const name = `${NAME}.${count}`;
    if (!existsSync(join(folder, name))) return name;
  }
}
