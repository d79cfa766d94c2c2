import { spawn } from "node:child_process";
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

import { afterEach, beforeEach, describe, expect, it } from "vitest";

import { clearAbandoned } from "../../../src/files/publish/clear-up.js";
import { filesBelow } from "../../../src/files/publish/files-below.js";

const here = (name: string): string => fileURLToPath(new URL(name, import.meta.url));

let root: string;
let out: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), "carrywell-killed-"));
  out = join(root, "out");
});
afterEach(() => {
  rmSync(root, { recursive: true, force: true });
});

const FILES = { old: ["page.html", "impulses/gone.wav"], new: ["page.html", "tables/a.csv"] };
/** What lies in the folder without being a result. */
const OWN = { "notes.txt": "ask Ida", "tables/mine.csv": "1,2" };

/** Lays down the old generation, and the user's own files beside it. */
function layDown(): void {
  const put = (name: string, content: string): void => {
    mkdirSync(dirname(join(out, name)), { recursive: true });
    writeFileSync(join(out, name), content);
  };
  for (const name of FILES.old) put(name, `${name} of the old run`);
  for (const [name, content] of Object.entries(OWN)) put(name, content);
}

interface Run {
  readonly cwd?: string;
  readonly env?: Readonly<Record<string, string>>;
}

/** Writes the new generation as a process of its own. */
function run({ cwd = root, env = {} }: Run = {}): Promise<{ signal: string | null; code: number | null; err: string }> {
  const preload = env.DIE_AT === undefined ? [] : ["--import", here("die-at-step.mjs")];
  const obsolete = "impulses/gone.wav";
  const args = [...preload, here("write-generation.mjs"), out, "new", FILES.new.join(","), obsolete];
  return new Promise((resolve) => {
    const child = spawn(process.execPath, args, { cwd, env: { ...process.env, ...env } });
    let err = "";
    child.stderr.on("data", (data: Buffer) => (err += data.toString()));
    child.on("close", (code, signal) => {
      resolve({ code, signal, err });
    });
  });
}

/** Which generation the folder holds, whole and with the user's files; otherwise what it holds. */
function held(): string {
  const found = Object.fromEntries(filesBelow(out).map((name) => [name, readFileSync(join(out, name), "utf8")]));
  const text = (files: Readonly<Record<string, string>>): string => JSON.stringify(Object.entries(files).sort());
  for (const generation of ["old", "new"] as const) {
    const whole = Object.fromEntries(FILES[generation].map((name) => [name, `${name} of the ${generation} run`]));
    if (text(found) === text({ ...whole, ...OWN })) return generation;
  }
  return text(found);
}

/** Kills a run at its first step, its second, and so on, until one comes through. */
async function killedAtEveryStep(cwd: string, look: (step: number) => void): Promise<number> {
  for (let step = 0; ; step++) {
    rmSync(root, { recursive: true, force: true });
    mkdirSync(cwd, { recursive: true });
    layDown();
    const { signal, code, err } = await run({ cwd, env: { DIE_AT: String(step) } });
    if (signal === "SIGKILL") look(step);
    else {
      expect({ code, err }).toEqual({ code: 0, err: "" });
      return step;
    }
  }
}

describe("A run that is killed outright", () => {
  it("leaves the old results or the new, whichever step it dies at, and the next run clears up", async () => {
    const seen = new Set<string>();
    const steps = await killedAtEveryStep(root, (step) => {
      seen.add(held());
      expect(["old", "new"], `killed at step ${step}`).toContain(held());
      const before = held();
      clearAbandoned(out);
      expect([held(), readdirSync(root)], `cleared up after step ${step}`).toEqual([before, ["out"]]);
    });
    // Both sides of the change were met, or nothing was shown.
    expect([...seen].sort()).toEqual(["new", "old"]);
    expect(steps).toBeGreaterThan(8);
    expect([held(), readdirSync(root)]).toEqual(["new", ["out"]]);
  });

  it("in the folder that somebody stands in is undone or completed by the next run", async () => {
    // That folder cannot change its place: its files are moved one by one.
    const seen = new Set<string>();
    const steps = await killedAtEveryStep(out, (step) => {
      clearAbandoned(out);
      seen.add(held());
      expect(["old", "new"], `killed at step ${step}`).toContain(held());
    });
    expect([...seen].sort()).toEqual(["new", "old"]);
    expect(steps).toBeGreaterThan(8);
    expect([held(), readdirSync(root)]).toEqual(["new", ["out"]]);
  });

  it.each([0, 1])("while the folders change, before move %d, has them changed", async (move) => {
    layDown();
    const env = { NODE_OPTIONS: `--import ${pathToFileURL(here("kill-run.mjs")).href}`, KILL_AT: String(move) };
    const { signal } = await run({ env });
    expect(signal).toBe("SIGKILL");
    await expect.poll(held, { timeout: 5000 }).toBe("new");
    clearAbandoned(out);
    expect([held(), readdirSync(root)]).toEqual(["new", ["out"]]);
  });
});

describe("A machine that stops between the two moves", () => {
  it("has no results in their place, and the next run puts the old ones back", () => {
    layDown();
    const work = `${out}.${2 ** 31 - 1}.part`;
    mkdirSync(join(work, "new"), { recursive: true });
    writeFileSync(join(work, "new", "page.html"), "page.html of the new run");
    writeFileSync(join(work, "journal.json"), JSON.stringify({ files: ["page.html"], obsolete: [] }));
    // As the first of the two moves leaves it.
    renameSync(out, join(work, "old"));
    clearAbandoned(out);
    expect([held(), readdirSync(root)]).toEqual(["old", ["out"]]);
  });
});

describe("What is the user's in an output folder", () => {
  it("stays the same file, links and empty folders included", async () => {
    layDown();
    symlinkSync("notes.txt", join(out, "link"));
    mkdirSync(join(out, "later"));
    const before = statSync(join(out, "notes.txt"));
    expect((await run()).code).toBe(0);
    const after = statSync(join(out, "notes.txt"));
    expect([after.ino, after.mtimeMs]).toEqual([before.ino, before.mtimeMs]);
    expect(readFileSync(join(out, "link"), "utf8")).toBe("ask Ida");
    expect(existsSync(join(out, "later"))).toBe(true);
    expect(existsSync(join(out, "impulses"))).toBe(false);
  });

  it("keeps a big folder of other things the folder that it is", async () => {
    layDown();
    for (let n = 0; n < 150; n++) writeFileSync(join(out, `take-${n}.txt`), String(n));
    const { ino } = statSync(out);
    expect((await run()).code).toBe(0);
    expect(statSync(out).ino).toBe(ino);
    expect(readFileSync(join(out, "page.html"), "utf8")).toBe("page.html of the new run");
    expect(readFileSync(join(out, "take-149.txt"), "utf8")).toBe("149");
    expect(readdirSync(root)).toEqual(["out"]);
  });

  it("is found again if it was saved into the old folder in its last moment", () => {
    layDown();
    const work = `${out}.${2 ** 31 - 1}.part`;
    mkdirSync(join(work, "old"), { recursive: true });
    writeFileSync(join(work, "old", "late.txt"), "just saved");
    writeFileSync(join(work, "old", "page.html"), "page.html of an older run");
    writeFileSync(join(work, "finished.json"), JSON.stringify({ files: ["page.html"], obsolete: [] }));
    clearAbandoned(out);
    expect(readFileSync(join(out, "late.txt"), "utf8")).toBe("just saved");
    expect(readFileSync(join(out, "page.html"), "utf8")).toBe("page.html of the old run");
    expect(readdirSync(root)).toEqual(["out"]);
  });
});
