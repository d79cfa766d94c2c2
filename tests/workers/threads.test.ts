import { execFile } from "node:child_process";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { programVersion } from "../../src/files/program-version.js";
import { readSession } from "../../src/files/read-session.js";
import { sessionFiles } from "../../src/files/session-files.js";
import type { Results } from "../../src/model.js";
import { analyse } from "../../src/pipeline.js";

const root = fileURLToPath(new URL("../..", import.meta.url));
let out: string;

beforeAll(async () => {
  out = await mkdtemp(join(tmpdir(), "carrywell-threads-"));
});
afterAll(async () => {
  await rm(out, { recursive: true });
});

describe("the heavy steps on several threads", () => {
  it("give the very numbers that one thread gives, in the same order", async () => {
    const { session, folder, refused, notes } = await readSession(join(root, "sample-audio"));
    const here = await analyse(session, sessionFiles(folder), { version: await programVersion(), refused, notes });
    await promisify(execFile)(process.execPath, [
      join(root, "bin/carrywell.js"),
      "report",
      join(root, "sample-audio"),
      "--out",
      out,
      "--quiet",
    ]);
    const spread = JSON.parse(await readFile(join(out, "results.json"), "utf8")) as Results;
    expect(spread.measurements).toEqual(here.results.measurements);
    expect(spread.provenance).toEqual(here.results.provenance);
    expect(spread.monitors).toEqual(here.results.monitors);
    expect(spread.findings).toEqual(here.results.findings);
  });
});
