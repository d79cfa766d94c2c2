#!/usr/bin/env node
// Makes a fresh clone ready: installs what package-lock.json names, where that is not installed yet, and compiles.
// Imports nothing but Node, for it runs before anything is there.
import { spawnSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const root = dirname(dirname(fileURLToPath(import.meta.url)));

const [major = 0, minor = 0] = process.versions.node.split(".").map(Number);
if (major < 20 || (major === 20 && minor < 19))
  fail(`Node 20.19 or newer is needed; this is ${process.versions.node}.`);

if (!installed()) {
  process.stderr.write("Installing the packages that package-lock.json names...\n");
  npm(["ci", "--include=dev", "--no-audit", "--no-fund", "--loglevel=error"]);
}
npm(["run", "--silent", "build"]);

/** Compares content, not dates: a checkout gives every file a new date. */
function installed() {
  const record = join(root, "node_modules", ".package-lock.json");
  if (!existsSync(record)) return false;
  const wanted = packagesOf(join(root, "package-lock.json"));
  const present = packagesOf(record);
  return Object.entries(wanted).every(
    ([path, entry]) => path === "" || entry.optional || present[path]?.version === entry.version,
  );
}

/** @returns {Record<string, { version?: string, optional?: boolean }>} */
function packagesOf(path) {
  try {
    return JSON.parse(readFileSync(path, "utf8")).packages ?? {};
  } catch {
    return {};
  }
}

/** Runs the npm that started this script, else the one on the path. */
function npm(args) {
  const own = process.env.npm_execpath;
  const [program, first] = own && /\.c?js$/.test(own) ? [process.execPath, [own]] : ["npm", []];
  const { status, error } = spawnSync(program, [...first, ...args], {
    cwd: root,
    // What goes to standard output belongs to the command that follows.
    stdio: ["ignore", 2, 2],
    shell: program === "npm" && process.platform === "win32",
  });
  if (error) fail(`npm could not be started: ${error.message}`);
  if (status !== 0)
    fail(`"npm ${args.filter((one) => !one.startsWith("-")).join(" ")}" failed; its reason stands above.`);
}

function fail(message) {
  process.stderr.write(`${message}\n`);
  process.exit(1);
}
