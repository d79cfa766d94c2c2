import { join, relative } from "node:path";

import { InputError } from "../../errors.js";

const reasons: Readonly<Record<string, [string, string]>> = {
  EACCES: ["this user may not write there", "give a folder of your own"],
  EPERM: ["this user may not write there, or another program holds a file open", "close it, or give another folder"],
  EBUSY: ["another program holds a file open", "close it and run again"],
  EROFS: ["the disk cannot be written to", "give a folder on another disk"],
  ENOSPC: ["the disk is full", "make room, or give a folder on another disk"],
  EDQUOT: ["this user's share of the disk is full", "make room, or give a folder on another disk"],
  EFBIG: ["a file would become larger than this system or user may write", "give a folder on another disk"],
  EIO: ["the disk reports an error", "give a folder on another disk"],
  ENOTDIR: ["part of the path is a file", "give another folder"],
  EEXIST: ["part of the path is a file", "give another folder"],
  EISDIR: ["a folder stands where a file shall be", "move that folder away, or give another output folder"],
  ENAMETOOLONG: ["the name is too long", "give a shorter one"],
};

/**
 * Says a failure of the disk in words.
 *
 * @param given - the output folder as the user wrote it
 * @param out - the same, absolute
 * @returns an `InputError`, or what came in if the disk did not cause it
 */
export function refusedByDisk(error: unknown, given: string, out: string): unknown {
  const { code, path, syscall } = error as NodeJS.ErrnoException;
  if (error instanceof InputError || code === undefined || syscall === undefined) return error;
  const [reason, remedy] = reasons[code] ?? [`the system says ${code}`, "give another folder"];
  const file = path === undefined ? "" : relative(out, path).replaceAll("\\", "/");
  const where = file === "" || file.includes(".part") || file.startsWith("..") ? given : join(given, file);
  return new InputError(`The output cannot be written: ${reason}.`, { where, remedy });
}
