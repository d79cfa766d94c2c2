import { readFile, realpath, writeFile } from "node:fs/promises";
import { join } from "node:path";

import { InputError } from "../errors.js";
import { changesCsv } from "../report/changes/csv.js";
import { renderChanges } from "../report/changes/page.js";
import type { Changes } from "../schema/changes.js";
import { readReportAssets } from "./report-assets.js";
import { writeTogether } from "./stage.js";

const FILES = ["comparison.html", "changes.json", "changes.csv"] as const;

/**
 * Writes a comparison: comparison.html, changes.json and changes.csv. An older comparison in the folder gives way.
 *
 * @param inputs - files that it was made from, which must stay
 * @throws {InputError} if the folder cannot be written to, or holds a file in the way that no comparison wrote
 */
export async function writeComparison(changes: Changes, inputs: readonly string[], folder: string): Promise<void> {
  const page = await renderChanges(changes, await readReportAssets());
  await writeTogether(folder, async (stage) => {
    await refuseForeign(folder, inputs);
    const contents = {
      "comparison.html": page,
      "changes.json": `${JSON.stringify(changes)}\n`,
      "changes.csv": changesCsv(changes),
    };
    await Promise.all(FILES.map((name) => writeFile(join(stage, name), contents[name])));
    return {};
  });
}

async function refuseForeign(folder: string, inputs: readonly string[]): Promise<void> {
  const real = (path: string): Promise<string> => realpath(path).catch(() => "");
  const kept = new Set(await Promise.all(inputs.map(real)));
  const older = await readFile(join(folder, "changes.json"), "utf8").catch(() => "");
  const isOurs = older.startsWith('{"schema":"carrywell/changes/');
  for (const name of FILES) {
    const path = await real(join(folder, name));
    if (path === "" || (isOurs && !kept.has(path))) continue;
    throw new InputError(
      kept.has(path)
        ? `The comparison would replace "${name}", which it is made from.`
        : `The folder holds a "${name}" that no earlier comparison wrote.`,
      { where: folder, remedy: "move that file away, or give another folder" },
    );
  }
}
