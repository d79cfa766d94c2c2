import { readFile, realpath } from "node:fs/promises";
import { join } from "node:path";

import { InputError } from "../errors.js";

/**
 * The files of an older listening in a folder; none where there is none.
 *
 * @throws {InputError} if one of the files that shall be written is the mix itself, or was not written by an earlier listening
 */
export async function olderListening(
  folder: string,
  files: readonly string[],
  inputs: readonly string[],
): Promise<string[]> {
  const older = await listed(folder);
  const real = (path: string): Promise<string> => realpath(path).catch(() => "");
  const kept = new Set(await Promise.all(inputs.map(real)));
  for (const name of new Set([...files, ...older])) {
    const path = await real(join(folder, name));
    if (path === "") continue;
    if (kept.has(path)) {
      throw new InputError(`What is rendered would replace "${name}", which it is made from.`, {
        where: folder,
        remedy: "give another folder",
      });
    }
    if (older.includes(name) || !files.includes(name)) continue;
    throw new InputError(`The folder holds a "${name}" that no earlier listening wrote.`, {
      where: folder,
      remedy: "move that file away, or give another folder",
    });
  }
  return older;
}

async function listed(folder: string): Promise<string[]> {
  const text = await readFile(join(folder, "listen.json"), "utf8").catch(() => "");
  if (!text.startsWith('{"schema":"carrywell/listen/')) return [];
  let files: unknown[] = [];
  try {
    files = (JSON.parse(text) as { versions: { file: unknown }[] }).versions.map(({ file }) => file);
  } catch {
    // A damaged file still marks the folder as a listening's.
  }
  const safe = files.filter((file) => typeof file === "string" && /^[\w-]+\.wav$/.test(file)) as string[];
  return ["listen.json", "listen.html", "sequence.wav", ...safe];
}
