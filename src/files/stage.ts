import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, statSync } from "node:fs";
import { mkdir, rm, stat } from "node:fs/promises";
import { basename, dirname, join, relative, resolve } from "node:path";

import { InputError } from "../errors.js";

/** What is to happen to the output folder once everything is written. */
export interface Publication {
  /** Files of the folder, relative to it with "/", that are out of date with this output. */
  readonly obsolete?: readonly string[];
}

/**
 * Writes a folder's files so that an interruption leaves the old ones or the new ones.
 *
 * The work fills a folder of its own on the same disk; then every file is moved to its place by name alone. The moves
 * are synchronous: no signal comes between them, and a move that fails puts back what was there.
 *
 * @param folder - where the files shall be; made if it is missing, other files in it are left alone
 * @param work - writes into the folder it is given
 * @throws {InputError} if the disk refuses; the output folder is then as before
 */
export async function writeTogether(folder: string, work: (stage: string) => Promise<Publication>): Promise<void> {
  const out = resolve(folder);
  await refuseFile(out, folder);
  const isThere = existsSync(out);
  // Beside a folder that is not there yet, inside one that is: the disk below may be another one than beside it.
  const stage = isThere ? join(out, `.carrywell.${process.pid}.part`) : `${out}.${process.pid}.part`;
  const remove = (): void => {
    rmSync(stage, { recursive: true, force: true });
  };
  process.on("exit", remove);
  try {
    removeAbandoned(dirname(stage), isThere ? ".carrywell" : basename(out));
    await mkdir(stage, { recursive: true });
    const { obsolete = [] } = await work(stage);
    if (isThere) moveInto(stage, out, obsolete);
    else renameSync(stage, out);
  } catch (error) {
    throw refusedByDisk(error, folder, out);
  } finally {
    process.off("exit", remove);
    // What cannot be removed was never made; the fault that stopped the work is the one to tell.
    await rm(stage, { recursive: true, force: true }).catch(() => undefined);
  }
}

async function refuseFile(out: string, given: string): Promise<void> {
  if (given === "") throw new InputError("The output folder has no name.", { where: "--out", remedy: "name one" });
  const entry = await stat(out).catch(() => null);
  if (entry && !entry.isDirectory()) {
    throw new InputError("The output folder is a file.", { where: given, remedy: "give the name of a folder" });
  }
}

/** All files below a folder, relative to it with "/". */
export function filesBelow(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => !entry.isDirectory())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).replaceAll("\\", "/"));
}

function moveInto(stage: string, out: string, obsolete: readonly string[]): void {
  const files = filesBelow(stage);
  const before = join(stage, ".before");
  const undo: (() => void)[] = [];
  const move = (from: string, to: string): void => {
    mkdirSync(dirname(to), { recursive: true });
    renameSync(from, to);
    undo.push(() => {
      renameSync(to, from);
    });
  };
  try {
    for (const file of new Set([...files, ...obsolete])) {
      if (existsSync(join(out, file))) move(join(out, file), join(before, file));
    }
    for (const file of files) move(join(stage, file), join(out, file));
  } catch (error) {
    for (const step of undo.reverse()) step();
    throw error;
  }
}

/** Clears up after runs that were killed outright: their process is gone, their folder is not. */
function removeAbandoned(parent: string, name: string): void {
  if (!existsSync(parent)) return;
  for (const entry of readdirSync(parent)) {
    if (!entry.startsWith(`${name}.`) || !entry.endsWith(".part")) continue;
    const owner = entry.slice(name.length + 1, -".part".length);
    const path = join(parent, entry);
    if (!/^\d+$/.test(owner) || isRunning(Number(owner)) || !statSync(path).isDirectory()) continue;
    // A run killed between two moves has left the old files here: they are the only copy.
    if (!existsSync(join(path, ".before"))) rmSync(path, { recursive: true, force: true });
  }
}

function isRunning(id: number): boolean {
  try {
    process.kill(id, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}

const reasons: Readonly<Record<string, [string, string]>> = {
  EACCES: ["this user may not write there", "give a folder of your own"],
  EPERM: ["this user may not write there, or another program holds a file open", "close it, or give another folder"],
  EBUSY: ["another program holds a file open", "close it and run again"],
  EROFS: ["the disk cannot be written to", "give a folder on another disk"],
  ENOSPC: ["the disk is full", "make room, or give a folder on another disk"],
  EDQUOT: ["this user's share of the disk is full", "make room, or give a folder on another disk"],
  ENOTDIR: ["part of the path is a file", "give another folder"],
  EEXIST: ["part of the path is a file", "give another folder"],
  EISDIR: ["a folder stands where a file shall be", "move that folder away, or give another output folder"],
  ENAMETOOLONG: ["the name is too long", "give a shorter one"],
};

function refusedByDisk(error: unknown, given: string, out: string): unknown {
  const { code, path, syscall } = error as NodeJS.ErrnoException;
  if (error instanceof InputError || code === undefined || syscall === undefined) return error;
  const [reason, remedy] = reasons[code] ?? [`the system says ${code}`, "give another folder"];
  const file = path === undefined ? "" : relative(out, path).replaceAll("\\", "/");
  const where = file === "" || file.includes(".part") ? given : join(given, file);
  return new InputError(`The output cannot be written: ${reason}.`, { where, remedy });
}
