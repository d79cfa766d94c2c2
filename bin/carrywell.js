#!/usr/bin/env node
import { existsSync } from "node:fs";

const program = new URL("../dist/program/main.js", import.meta.url);
if (!existsSync(program)) {
  process.stderr.write('Carrywell is not compiled yet.\n  where: the folder dist\n  try:   run "npm run build"\n');
  process.exit(2);
}
const { main } = await import(program.href);
process.exitCode = await main(process.argv.slice(2));
