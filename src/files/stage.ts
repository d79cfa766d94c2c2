import { existsSync, mkdirSync, realpathSync, renameSync, rmSync } from "node:fs";
import { stat } from "node:fs/promises";
import { dirname, resolve } from "node:path";

import { InputError } from "../errors.js";
import { carryOver } from "./publish/carry-over.js";
import { clearAbandoned, clearUp } from "./publish/clear-up.js";
import { filesBelow } from "./publish/files-below.js";
import { moveFiles } from "./publish/move-files.js";
import { refuseLinks } from "./publish/refuse-links.js";
import { refusedByDisk } from "./publish/refused-by-disk.js";
import { swapFolders } from "./publish/swap-folders.js";
import { finishJournal, openWorkFolder, type WorkFolder, writeJournal } from "./publish/work-folder.js";

/** What is to happen to the output folder once everything is written. */
export interface Publication {
  /** Files of the folder, relative to it with "/", that are out of date with this output. */
  readonly obsolete?: readonly string[];
}

/**
 * Writes a folder's files so that an interruption leaves the old ones or the new ones, and never some of each.
 *
 * The work fills a folder of its own on the same disk. When it is complete, it takes the place of the output folder; files
 * in there that are not ours come along. A folder that must stay the same one (see `openWorkFolder`) gets the files moved into
 * it one by one; a run that is killed outright between two of these moves is undone by the next.
 *
 * @param folder - where the files shall be; made if it is missing, other files in it are left alone
 * @param work - writes into the folder it is given
 * @throws {InputError} if the disk refuses; the output folder is then as before
 */
export async function writeTogether(folder: string, work: (stage: string) => Promise<Publication>): Promise<void> {
  const given = resolve(folder);
  await refuseFile(given, folder);
  let place: WorkFolder | null = null;
  const remove = (): void => {
    if (place) rmSync(place.path, { recursive: true, force: true });
  };
  process.on("exit", remove);
  try {
    clearAbandoned(given);
    // Where the path is a link, the folder it leads to is what changes.
    const out = existsSync(given) ? realpathSync(given) : given;
    if (out !== given) clearAbandoned(out);
    place = openWorkFolder(out);
    const { obsolete = [] } = await work(place.fresh);
    publish(place, out, obsolete);
  } catch (error) {
    throw refusedByDisk(error, folder, given);
  } finally {
    process.off("exit", remove);
    try {
      if (place) clearUp(place, given);
    } catch {
      // What cannot be removed now the next run removes; a fault that stopped the work is the one to tell.
    }
  }
}

function publish(place: WorkFolder, out: string, obsolete: readonly string[]): void {
  const journal = { files: filesBelow(place.fresh), obsolete };
  if (!existsSync(out)) {
    mkdirSync(dirname(out), { recursive: true });
    renameSync(place.fresh, out);
    return;
  }
  refuseLinks(out, [...journal.files, ...obsolete]);
  writeJournal(place, journal);
  const ours = new Set([...journal.files, ...obsolete]);
  if (!place.isBeside || !carryOver(out, place.fresh, ours) || !swapped(place, out)) moveFiles(place, out, journal);
  finishJournal(place);
}

/** @returns false where the system does not let the folder go, as some do while a program holds a file in it open */
function swapped({ fresh, old }: WorkFolder, out: string): boolean {
  try {
    swapFolders(out, fresh, old);
    return true;
  } catch {
    return false;
  }
}

async function refuseFile(out: string, given: string): Promise<void> {
  if (given === "") throw new InputError("The output folder has no name.", { where: "--out", remedy: "name one" });
  const entry = await stat(out).catch(() => null);
  if (entry && !entry.isDirectory()) {
    throw new InputError("The output folder is a file.", { where: given, remedy: "give the name of a folder" });
  }
}
