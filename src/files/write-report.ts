import { mkdir, readFile, realpath, writeFile } from "node:fs/promises";
import { join } from "node:path";

import { InputError } from "../errors.js";
import type { Analysis } from "../pipeline.js";
import { encodeWav } from "../recording/encode-wav.js";
import { renderReport } from "../report/page.js";
import { resultTables } from "../report/tables.js";
import { inputFiles } from "./input-files.js";
import type { ReadSession } from "./read-session.js";
import { readReportAssets } from "./report-assets.js";
import { filesBelow } from "./publish/files-below.js";
import { writeTogether } from "./stage.js";

/**
 * Writes a report: report.html, results.json, tables/*.csv and impulses/*.wav.
 *
 * An older report in the folder gives way, its impulse responses that no longer exist included; other files stay.
 *
 * @throws {InputError} if the folder cannot be written to, or holds a file in the way that no report wrote
 */
export async function writeReport(analysis: Analysis, source: ReadSession, folder: string): Promise<void> {
  const { results, impulses } = analysis;
  const page = await renderReport(results, await readReportAssets());
  await writeTogether(folder, async (stage) => {
    await Promise.all(["tables", "impulses"].map((name) => mkdir(join(stage, name), { recursive: true })));
    const write = (name: string, content: string | Uint8Array): Promise<void> => writeFile(join(stage, name), content);
    await Promise.all([
      write("report.html", page),
      write("results.json", `${JSON.stringify(results)}\n`),
      ...resultTables(results).map((table) => write(`tables/${table.name}`, table.csv)),
      write("impulses/about.txt", aboutImpulses),
      ...impulses.map(({ name, samples, sampleRate }) =>
        write(impulseFile(name), encodeWav([samples], sampleRate, "float32")),
      ),
    ]);
    const written = filesBelow(stage);
    const older = await olderReport(folder);
    const obsolete = older.filter((file) => file.startsWith("impulses/") && !written.includes(file));
    await refuseInputs([...written, ...obsolete], source, folder);
    await refuseForeign(written, older, folder);
    return { obsolete };
  });
}

const aboutImpulses = `Impulse responses, one file for each measurement, named monitor-channel@position.
32-bit float, mono. 1 stands for recorded full scale per played full scale.
Each file begins 0.1 s before the arrival of the direct sound, or with the response where that begins later.
The microphone's calibration is applied where the session gives one.
`;

function impulseFile(id: string): string {
  return `impulses/${id}.wav`;
}

/** The files of an older report in the folder; none where there is none. */
async function olderReport(folder: string): Promise<string[]> {
  const text = await readFile(join(folder, "results.json"), "utf8").catch(() => "");
  if (!text.startsWith('{"schema":"carrywell/results/')) return [];
  let ids: string[] = [];
  try {
    const { measurements } = JSON.parse(text) as { measurements: { id: unknown }[] };
    ids = measurements.flatMap(({ id }) => (typeof id === "string" && /^[\w@-]+$/.test(id) ? [id] : []));
  } catch {
    // A damaged results file still marks the folder as a report's.
  }
  return ["report.html", "results.json", "impulses/about.txt", ...ids.map(impulseFile)];
}

/** A report must not be written over what it was made from. */
async function refuseInputs(files: readonly string[], source: ReadSession, folder: string): Promise<void> {
  const real = (path: string): Promise<string> => realpath(path).catch(() => "");
  const kept = new Set(await Promise.all(inputFiles(source).map(real)));
  for (const name of files) {
    const path = await real(join(folder, name));
    if (path === "" || !kept.has(path)) continue;
    throw new InputError(`The report would be written over "${name}", which the session needs.`, {
      where: folder,
      remedy: "give another folder for the report",
    });
  }
}

async function refuseForeign(files: readonly string[], older: readonly string[], folder: string): Promise<void> {
  for (const name of files) {
    // Tables carry fixed names: beside an older report they are its own.
    if (older.includes(name) || (older.length > 0 && name.startsWith("tables/"))) continue;
    if ((await realpath(join(folder, name)).catch(() => null)) === null) continue;
    throw new InputError(`The folder holds a "${name}" that no earlier report wrote.`, {
      where: folder,
      remedy: "move that file away, or give another folder for the report",
    });
  }
}
