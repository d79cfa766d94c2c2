import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

import { afterEach, beforeEach, describe, expect, it } from "vitest";

import { filesBelow } from "../../src/files/publish/files-below.js";
import { type Publication, writeTogether } from "../../src/files/stage.js";

let root: string;
let out: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), "carrywell-stage-"));
  out = join(root, "out");
});
afterEach(() => {
  rmSync(root, { recursive: true, force: true });
});

/** Writes files of the given names, each with the given content. */
function put(content: string, ...names: string[]): (stage: string) => Promise<Publication> {
  return (stage) => {
    for (const name of names) {
      mkdirSync(join(stage, name, ".."), { recursive: true });
      writeFileSync(join(stage, name), content);
    }
    return Promise.resolve({});
  };
}

const contentOf = (name: string): string => readFileSync(join(out, name), "utf8");

describe("Output that is written together", () => {
  it("appears as a whole in a new folder, parents included", async () => {
    out = join(root, "a", "b", "out");
    await writeTogether(out, put("new", "page.html", "tables/a.csv"));
    expect(filesBelow(out).sort()).toEqual(["page.html", "tables/a.csv"]);
    expect(readdirSync(join(root, "a", "b"))).toEqual(["out"]);
  });

  it("replaces its own, removes what is obsolete, leaves the rest", async () => {
    await put("old", "page.html", "tables/a.csv", "tables/gone.csv", "tables/foreign.csv")(out);
    await writeTogether(out, async (stage) => {
      await put("new", "page.html", "tables/a.csv")(stage);
      return { obsolete: ["tables/gone.csv", "tables/never-was.csv"] };
    });
    expect(filesBelow(out).sort()).toEqual(["page.html", "tables/a.csv", "tables/foreign.csv"]);
    expect([contentOf("page.html"), contentOf("tables/a.csv"), contentOf("tables/foreign.csv")]).toEqual([
      "new",
      "new",
      "old",
    ]);
  });

  it("does not appear at all when the work fails", async () => {
    const fails = async (stage: string): Promise<Publication> => {
      await put("half", "page.html")(stage);
      throw new Error("no more");
    };
    await expect(writeTogether(out, fails)).rejects.toThrow("no more");
    expect(readdirSync(root)).toEqual([]);
    await put("old", "page.html")(out);
    await expect(writeTogether(out, fails)).rejects.toThrow("no more");
    expect([filesBelow(out), contentOf("page.html")]).toEqual([["page.html"], "old"]);
  });

  it("puts back what was there when one of the moves fails", async () => {
    // A file stands where a folder must be: the disk refuses "tables/a.csv", after "page.html" has moved.
    await put("old", "page.html", "tables")(out);
    await expect(writeTogether(out, put("new", "page.html", "tables/a.csv"))).rejects.toThrow(/cannot be written/);
    expect(filesBelow(out).sort()).toEqual(["page.html", "tables"]);
    expect([contentOf("page.html"), contentOf("tables")]).toEqual(["old", "old"]);
  });

  it("clears away what a killed run left, but not what a living one writes", async () => {
    mkdirSync(out);
    // No process has the largest number that a 32-bit identifier can hold.
    const [dead, living] = [`.carrywell.${2 ** 31 - 1}.part`, `.carrywell.${process.ppid}.part`];
    for (const name of [dead, living]) mkdirSync(join(out, name));
    await writeTogether(out, put("new", "page.html"));
    expect(existsSync(join(out, dead))).toBe(false);
    expect(existsSync(join(out, living))).toBe(true);
  });
});
