import { readdir, realpath, stat } from "node:fs/promises";
import { basename, dirname, join, resolve, sep } from "node:path";

import { InputError } from "../errors.js";
import { nearestName } from "../schema/nearest-name.js";

/**
 * Finds a file that a session names.
 *
 * @param folder - the session's folder
 * @param file - a path relative to it, with "/" between folders
 * @returns the file's own path, links followed
 * @throws {InputError} if the path leaves the folder, by its words or by a link, or leads to no readable file
 */
export async function findInside(folder: string, file: string): Promise<string> {
  refuseEscape(file);
  const root = await realpath(folder);
  const path = resolve(root, file);
  let real: string;
  try {
    real = await realpath(path);
  } catch (error) {
    throw await notFound(path, file, error);
  }
  // A link may lead anywhere; what counts is where it ends.
  if (!real.startsWith(root.endsWith(sep) ? root : root + sep)) throw escape(file, "is a link that leads");
  const entry = await stat(real);
  if (!entry.isFile()) {
    throw new InputError(`"${file}" is ${entry.isDirectory() ? "a folder" : "a device or pipe"}, not a file.`, {
      where: file,
      remedy: "name a file inside the session folder",
    });
  }
  return real;
}

function refuseEscape(file: string): void {
  if (file.includes("\0")) throw escape(file, "holds a character that no file name can have, and so leads");
  if (file.includes("\\")) {
    throw new InputError("The path is written with backslashes.", {
      where: file,
      remedy: 'write "/" between folder and file: it works on every system',
    });
  }
  if (file.startsWith("/") || /^[A-Za-z]:/.test(file)) throw escape(file, "is absolute and so leads");
  let depth = 0;
  for (const step of file.split("/")) {
    if (step === "..") depth -= 1;
    else if (step !== "." && step !== "") depth += 1;
    if (depth < 0) throw escape(file, "leads");
  }
}

function escape(file: string, how: string): InputError {
  return new InputError(`The path ${how} out of the session folder.`, {
    where: file.replaceAll("\0", "\\0"),
    remedy: "copy the file into the session folder and name it there",
  });
}

async function notFound(path: string, file: string, error: unknown): Promise<InputError> {
  const code = (error as NodeJS.ErrnoException).code;
  if (code !== "ENOENT" && code !== "ENOTDIR") return unreadable(file, error);
  const beside = await readdir(dirname(path)).catch(() => []);
  const nearest = nearestName(basename(path), beside);
  return new InputError(`The file "${file}" does not exist in the session folder.`, {
    where: file,
    remedy:
      nearest === null
        ? "copy it there, or correct its name in session.json"
        : `did you mean "${join(dirname(file), nearest).replaceAll(sep, "/")}"?`,
  });
}

const reasons: Readonly<Record<string, string>> = {
  EACCES: "this user may not read it",
  EPERM: "this user may not read it",
  ELOOP: "it is a link that leads back to itself",
  ERR_FS_FILE_TOO_LARGE: "it is larger than 2 GB",
  EIO: "the disk reports an error",
};

export function unreadable(file: string, error: unknown): InputError {
  const code = (error as NodeJS.ErrnoException).code ?? "";
  return new InputError(`The file cannot be read: ${reasons[code] ?? `the system says ${code || String(error)}`}.`, {
    where: file,
    remedy: "make the file readable, or copy it into the session folder again",
  });
}
