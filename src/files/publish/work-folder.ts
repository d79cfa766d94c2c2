import { mkdirSync, readdirSync, readFileSync, realpathSync, renameSync, statSync, writeFileSync } from "node:fs";
import { basename, dirname, join, sep } from "node:path";

/**
 * Where one run prepares its output, on the disk of the output folder.
 *
 * - `fresh` is filled with the new files.
 * - `journal` is written when they are complete: without it nothing outside the work folder was touched.
 * - `old` is the whole output folder that gave way, or `before` the single files that did.
 * - `finished` is the journal's name once everything stands in its place.
 */
export interface WorkFolder {
  readonly path: string;
  /** Beside the output folder, so that the two can change places. */
  readonly isBeside: boolean;
  readonly fresh: string;
  readonly old: string;
  readonly before: string;
  readonly journal: string;
  readonly finished: string;
}

/** What a run puts in place, and what of an older one it removes: all that is not the user's. */
export interface Journal {
  readonly files: readonly string[];
  readonly obsolete: readonly string[];
}

const INSIDE = ".carrywell";

/** Makes the work folder of this run. */
export function openWorkFolder(out: string): WorkFolder {
  const name = `${process.pid}.part`;
  const beside = workFolder(`${out}.${name}`, true);
  const inside = workFolder(join(out, `${INSIDE}.${name}`), false);
  if (!isThere(out)) return made(beside);
  if (staysInPlace(out)) return made(inside);
  try {
    return made(beside);
  } catch {
    // The folder around it may belong to somebody else.
    return made(inside);
  }
}

/** The work folders of runs that were killed outright: their process is gone, their folder is not. */
export function abandonedWork(out: string): WorkFolder[] {
  const among = (parent: string, name: string, isBeside: boolean): WorkFolder[] =>
    entriesOf(parent)
      .filter((entry) => isAbandoned(entry, name))
      .map((entry) => workFolder(join(parent, entry), isBeside));
  return [...among(dirname(out), basename(out), true), ...among(out, INSIDE, false)].filter(({ path }) =>
    statSync(path).isDirectory(),
  );
}

/** Whether a name is that of a work folder inside an output folder. */
export function isWorkInside(name: string): boolean {
  return name.startsWith(`${INSIDE}.`) && name.endsWith(".part");
}

export function writeJournal(work: WorkFolder, journal: Journal): void {
  writeFileSync(work.journal, JSON.stringify(journal));
}

/** From here on the new files are the folder's. */
export function finishJournal(work: WorkFolder): void {
  renameSync(work.journal, work.finished);
}

/** @returns null if the run had not begun to publish: a journal that was cut off while it was written counts as none */
export function readJournal(work: WorkFolder): (Journal & { readonly isFinished: boolean }) | null {
  for (const [file, isFinished] of [
    [work.finished, true],
    [work.journal, false],
  ] as const) {
    try {
      return { ...(JSON.parse(readFileSync(file, "utf8")) as Journal), isFinished };
    } catch {
      continue;
    }
  }
  return null;
}

function workFolder(path: string, isBeside: boolean): WorkFolder {
  const at = (name: string): string => join(path, name);
  return {
    ...{ path, isBeside, fresh: at("new"), old: at("old"), before: at("before") },
    ...{ journal: at("journal.json"), finished: at("finished.json") },
  };
}

function made(work: WorkFolder): WorkFolder {
  mkdirSync(work.fresh, { recursive: true });
  return work;
}

/** A folder that someone stands in, that is a disk's root or that belongs to somebody else must stay the same folder. */
function staysInPlace(out: string): boolean {
  const here = realpathSync(process.cwd());
  if (here === out || here.startsWith(out + sep)) return true;
  const [own, around] = [statSync(out), statSync(dirname(out))];
  return own.dev !== around.dev || (process.getuid !== undefined && own.uid !== process.getuid());
}

/** Whether something bears the name `name.<process>.part`, and the process is gone. */
export function isAbandoned(entry: string, name: string): boolean {
  if (!entry.startsWith(`${name}.`) || !entry.endsWith(".part")) return false;
  const owner = entry.slice(name.length + 1, -".part".length);
  return /^\d+$/.test(owner) && !isRunning(Number(owner));
}

/** In a container a run gets the number of the one before: what bears our own is not ours yet. */
function isRunning(id: number): boolean {
  if (id === process.pid) return false;
  try {
    process.kill(id, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}

function entriesOf(folder: string): string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}

function isThere(path: string): boolean {
  return statSync(path, { throwIfNoEntry: false }) !== undefined;
}
