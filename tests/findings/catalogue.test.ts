import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";

import { expect, it } from "vitest";

import { catalogue } from "../../src/findings/catalogue.js";

const words = fileURLToPath(new URL("../../src/findings/words/", import.meta.url));

it("A finding's words stand in one file, and every file of words is in the catalogue", async () => {
  const codes: string[] = [];
  for (const file of readdirSync(words, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".ts"))) {
    const found = Object.values((await import(words + file)) as object).filter((one) => typeof one === "object");
    codes.push(...found.flatMap((part) => Object.keys(part as object)));
  }
  // Of two parts with the same code the later one would take the other's place without a word.
  expect(codes.sort()).toEqual(Object.keys(catalogue).sort());
});
