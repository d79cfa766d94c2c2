#!/usr/bin/env node
// Writes the published JSON Schemas from the compiled ones: "npm run schemas".
import { mkdirSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

import { format } from "prettier";

const { publishedSchemas } = await import("../dist/schema/published.js");
const folder = new URL("../src/schema/published/", import.meta.url);
mkdirSync(folder, { recursive: true });
for (const { name, schema } of publishedSchemas()) {
  const path = fileURLToPath(new URL(name, folder));
  writeFileSync(path, await format(JSON.stringify(schema), { parser: "json", printWidth: 120 }));
  process.stdout.write(`src/schema/published/${name}\n`);
}
