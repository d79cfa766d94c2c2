import { readdir, stat } from "node:fs/promises";
import { join } from "node:path";

import { InputError } from "../errors.js";
import { findInside } from "./inside-folder.js";

export interface FolderListing {
  /** Relative to the folder with "/", in the order in which people count. */
  readonly files: readonly string[];
  /** Sessions and results of their own, which are left alone. */
  readonly otherFolders: readonly string[];
  /** Too large to be looked into. */
  readonly tooLarge: readonly string[];
  /** What no session can name: links that lead out or nowhere, and what is no plain file. */
  readonly outside: readonly string[];
}

/** Recordings are sorted into folders by monitor and place, not deeper. */
const DEEPEST = 4;
const MOST_FILES = 2000;
/** An hour in stereo at 48 kHz and 24 bits; the samples take twice as much in memory. */
const LARGEST_BYTES = 2 ** 30;
/** What marks a folder as something of its own. */
const MARKS = ["session.json", "results.json", "listen.json"];

/**
 * Lists what lies in a folder and in the folders below, but for hidden things and for the results of other commands.
 *
 * @throws {InputError} if there is no such folder, or far too much in it
 */
export async function listFolder(folder: string): Promise<FolderListing> {
  await refuseOther(folder);
  const files: string[] = [];
  const otherFolders: string[] = [];
  const tooLarge: string[] = [];
  const outside: string[] = [];
  const look = async (below: string, depth: number): Promise<void> => {
    const entries = await readdir(join(folder, below), { withFileTypes: true });
    if (below !== "" && entries.some(({ name }) => MARKS.includes(name))) {
      otherFolders.push(below);
      return;
    }
    for (const entry of entries) {
      if (entry.name.startsWith(".") || entry.name.endsWith(".part") || entry.name === "node_modules") continue;
      const path = below === "" ? entry.name : `${below}/${entry.name}`;
      if (entry.isDirectory()) {
        if (depth < DEEPEST) await look(path, depth + 1);
        continue;
      }
      const size = await sizeInside(folder, path);
      (size === null ? outside : size > LARGEST_BYTES ? tooLarge : files).push(path);
      if (files.length > MOST_FILES) throw tooMuch(folder);
    }
  };
  await look("", 0);
  const { compare } = new Intl.Collator("en", { numeric: true });
  return { files: files.sort(compare), otherFolders, tooLarge, outside };
}

async function refuseOther(folder: string): Promise<void> {
  const entry = await stat(folder).catch(() => null);
  if (entry?.isDirectory()) return;
  throw new InputError(entry ? "This is a file." : "There is no such folder.", {
    where: folder,
    remedy: "give the folder that holds the recordings and the sweep.json",
  });
}

/** @returns null for what no session can name: links that lead out, devices */
async function sizeInside(folder: string, path: string): Promise<number | null> {
  try {
    return (await stat(await findInside(folder, path))).size;
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}

function tooMuch(folder: string): InputError {
  return new InputError(`The folder holds more than ${MOST_FILES} files.`, {
    where: folder,
    remedy: "give a folder that holds the recordings of one session",
  });
}
