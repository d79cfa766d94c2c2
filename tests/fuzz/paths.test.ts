import { mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

import fc from "fast-check";
import { afterAll, expect, it } from "vitest";

import { InputError } from "../../src/errors.js";
import { findInside } from "../../src/files/inside-folder.js";
import { firstSeed, howMany } from "./how-many.js";

const root = realpathSync(mkdtempSync(join(tmpdir(), "carrywell-paths-")));
const folder = join(root, "session");
mkdirSync(join(folder, "takes"), { recursive: true });
writeFileSync(join(root, "outside.wav"), "outside");
writeFileSync(join(folder, "a.wav"), "inside");
writeFileSync(join(folder, "takes", "b.wav"), "inside");
symlinkSync("..", join(folder, "up"));
symlinkSync(join(root, "outside.wav"), join(folder, "out.wav"));
symlinkSync("a.wav", join(folder, "in.wav"));
symlinkSync("loop", join(folder, "loop"));
symlinkSync("/", join(folder, "top"));
afterAll(() => {
  rmSync(root, { recursive: true });
});

it("no path, however written and whatever it links to, leads out of the session's folder", async () => {
  const step = fc.oneof(
    fc.constantFrom(
      "..",
      ".",
      "",
      "a.wav",
      "takes",
      "b.wav",
      "up",
      "out.wav",
      "in.wav",
      "loop",
      "top",
      "etc",
      "hostname",
    ),
    fc.constantFrom(
      "session",
      "..%2f",
      "%2e%2e",
      "..\\",
      "C:",
      "~",
      "\0",
      "a.wav\0",
      "...",
      "\u2024\u2024",
      "con",
      "*",
    ),
    fc.string({ maxLength: 5 }),
  );
  const steps = fc.array(step, { maxLength: 5 });
  const end = fc.constantFrom("a.wav", "takes/b.wav", "session/a.wav", "out.wav", "etc/hostname", "");
  const path = fc.tuple(steps, end).map(([before, last]) => [...before, last].join("/"));
  let found = 0;
  await fc.assert(
    fc.asyncProperty(path, async (file) => {
      try {
        const real = await findInside(folder, file);
        found++;
        expect(real.startsWith(`${folder}/`)).toBe(true);
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
      }
    }),
    { numRuns: howMany(500, 5000), seed: firstSeed },
  );
  // Some lead to a file that is there, or nothing was tried.
  expect(found).toBeGreaterThan(5);
});
