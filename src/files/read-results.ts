import { readFile, stat } from "node:fs/promises";
import { basename, join } from "node:path";

import { InputError } from "../errors.js";
import type { Results } from "../model.js";
import { resultsSchema } from "../schema/results.js";

/** Far above the results of any session; V8 holds no longer text. */
const LARGEST_BYTES = 400 * 2 ** 20;

/**
 * The results.json that a path stands for: the file itself, or the one in a report's folder.
 *
 * @returns null where it is a session, or nothing at all, which reading it as a session tells better
 */
export async function findResults(given: string): Promise<string | null> {
  const entry = await stat(given).catch(() => null);
  if (!entry) return null;
  if (entry.isDirectory()) {
    const has = async (name: string): Promise<boolean> => (await stat(join(given, name)).catch(() => null)) !== null;
    return !(await has("session.json")) && (await has("results.json")) ? join(given, "results.json") : null;
  }
  if (!/\.json$/i.test(given)) return null;
  const start = (await readFile(given, { encoding: "utf8", flag: "r" }).catch(() => "")).slice(0, 200);
  return /"carrywell\/results\//.test(start) ? given : null;
}

/**
 * Reads what an earlier report has measured.
 *
 * @throws {InputError} if the file cannot be read, or is not what this program or an earlier version of it wrote
 */
export async function readResults(file: string): Promise<Results> {
  const { size } = await stat(file);
  if (size > LARGEST_BYTES) throw damaged(file, "it is larger than any results are");
  let value: unknown;
  try {
    value = JSON.parse(await readFile(file, "utf8"));
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    throw damaged(file, code === undefined ? "it is not JSON, or not all of it is there" : `the system says ${code}`);
  }
  const kind = (value as { schema?: unknown } | null)?.schema;
  if (kind !== "carrywell/results/1") {
    throw new InputError(`The results are "${String(kind)}"; this program reads "carrywell/results/1".`, {
      where: file,
      remedy: "give results that this version wrote, or the session they were made of",
    });
  }
  const parsed = resultsSchema.safeParse(value);
  if (parsed.success) return parsed.data;
  const [first] = parsed.error.issues;
  throw damaged(file, `"${first?.path.join(".") ?? ""}" is not as it was written`);
}

function damaged(file: string, why: string): InputError {
  return new InputError(`The results cannot be used: ${why}.`, {
    where: basename(file),
    remedy: "write the report again, or give the session itself",
  });
}
