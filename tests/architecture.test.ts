import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

import { describe, expect, it } from "vitest";

import { offences, type SourceFile } from "./architecture/offences.js";

const root = fileURLToPath(new URL("..", import.meta.url));
const { dependencies } = JSON.parse(readFileSync(`${root}package.json`, "utf8")) as { dependencies: object };
const packages = Object.keys(dependencies);

function sources(): SourceFile[] {
  return readdirSync(`${root}src`, { recursive: true, encoding: "utf8" })
    .filter((path) => path.endsWith(".ts"))
    .map((path) => ({ path: path.replaceAll("\\", "/"), source: readFileSync(`${root}src/${path}`, "utf8") }));
}

describe("The house", () => {
  it("keeps its rooms apart, its outside at the doors, and each package behind one file", () => {
    expect(offences(sources(), packages)).toEqual([]);
  });

  it("is looked at as a whole", () => {
    expect(sources().length).toBeGreaterThan(50);
  });

  it("holds nothing at the top but what the style page and the tools ask for", () => {
    const ignored = ["node_modules", "dist", "demo-session", "out", ".git"];
    const allowed = [
      ...["README.md", "DEVELOPERS.md", "package.json", "tsconfig.json"],
      ...["src", "bin", "report-templates", "tests", "sample-audio"],
      ...["package-lock.json", ".gitignore", "eslint.config.js", ".ci"],
    ];
    const found = readdirSync(root).filter((name) => !ignored.includes(name) && !name.endsWith(".part"));
    expect(found.filter((name) => !allowed.includes(name))).toEqual([]);
  });
});

describe("The test of the house", () => {
  const planted: [string, string, string, RegExp][] = [
    [
      "a static import between rooms",
      "metrics/a.ts",
      'import { b } from "../impulse/b.js";',
      /nothing but the basement/,
    ],
    ["an import for its side effect", "metrics/a.ts", 'import "../impulse/b.js";', /nothing but the basement/],
    ["a dynamic import", "metrics/a.ts", 'const b = await import("../impulse/b.js");', /nothing but the basement/],
    ["a re-export", "metrics/deep/a.ts", 'export { b } from "../../impulse/b.js";', /nothing but the basement/],
    ["a re-export of everything", "metrics/a.ts", 'export * from "../impulse/b.js";', /nothing but the basement/],
    ["an import of a type", "metrics/a.ts", 'import type { B } from "../impulse/b.js";', /nothing but the basement/],
    ["an import inside a type", "metrics/a.ts", 'type B = import("../impulse/b.js").B;', /nothing but the basement/],
    [
      "a room that knows the pipeline",
      "report/a.ts",
      'import { b } from "../pipeline.js";',
      /nothing but the basement/,
    ],
    ["a basement that knows a room", "dsp/a.ts", 'import { b } from "../sweep/b.js";', /reaches for no room/],
    ["a pipeline that opens a door", "pipeline.ts", 'import { b } from "./files/b.js";', /only a door/],
    ["a library that opens a door", "index.ts", 'export { b } from "./cli/b.js";', /only a door/],
    ["a front door with work in it", "index.ts", "export const b = 1;", /more than re-export/],
    ["a computed import", "cli/a.ts", "await import(name);", /computed/],
    ["Node in the core", "recording/a.ts", 'import { readFile } from "node:fs";', /node:fs, which is for the doors/],
    ["Node in the pipeline", "pipeline/a.ts", 'const fs = require("node:fs");', /for the doors/],
    ["the console in the core", "sweep/a.ts", 'console.log("here");', /console/],
    ["the clock in the core", "sweep/a.ts", "const now = Date.now();", /Date/],
    ["chance in the core", "simulate/a.ts", "const chance = Math.random();", /Math\.random/],
    ["a package nobody declared", "report/a.ts", 'import left from "left-trim";', /no dependency/],
    ["Node without its prefix", "cli/a.ts", 'import fs from "fs";', /no dependency/],
    ["a room of its own making", "utils/a.ts", "export const a = 1;", /no known room/],
    ["a way out of src", "cli/a.ts", 'import { b } from "../../tests/b.js";', /outside src/],
    ["an import without its ending", "dsp/a.ts", 'import { b } from "./b";', /does not end/],
  ];

  it.each(planted)("sees %s", (_, path, source, expected) => {
    expect(offences([{ path, source }], packages)).toEqual([expect.stringMatching(expected)]);
  });

  it("sees a package behind two files", () => {
    const source = 'import { z } from "zod";';
    const found = offences(
      ["schema/a.ts", "report/b.ts"].map((path) => ({ path, source })),
      packages,
    );
    expect(found).toEqual(["zod is imported by more than one file: report/b.ts, schema/a.ts"]);
  });

  it.each([
    ["a room over its basement", "metrics/a.ts", 'import { b } from "../dsp/b.js"; import { c } from "./deep/c.js";'],
    ["a pipeline over its rooms", "pipeline/a.ts", 'import { b } from "../metrics/b.js"; import "../pipeline.js";'],
    ["a door over everything", "cli/a.ts", 'import "../pipeline.js"; import "node:fs"; console.log(Date.now());'],
    ["a word that is only a property", "dsp/a.ts", "const a = { process: 1, b: c.fetch };"],
  ])("lets pass %s", (_, path, source) => {
    expect(offences([{ path, source }], packages)).toEqual([]);
  });
});
