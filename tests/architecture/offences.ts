import { posix } from "node:path";

import { importsOf } from "./imports-of.js";

/** The house of the style page: who may reach for whom. */

const rooms = [
  "sweep",
  "recording",
  "impulse",
  "metrics",
  "comparison",
  "translation",
  "findings",
  "report",
  "simulate",
  "naming",
  "geometry",
  "treatment",
];
const basement = ["dsp", "standards", "schema", "words", "model", "errors", "types"];
const doors = ["cli", "web", "files", "workers"];

/** What only a door may touch: disk, network, clock, console, chance. */
const outside = [
  "console",
  "process",
  "Date",
  "performance",
  "fetch",
  "Buffer",
  "setTimeout",
  "setInterval",
  "Math.random",
];

export interface SourceFile {
  /** Relative to src, with "/". */
  readonly path: string;
  readonly source: string;
}

/** Lists everything in the source that breaks the house's rules, one sentence each. */
export function offences(files: readonly SourceFile[], packages: readonly string[]): string[] {
  const found: string[] = [];
  const importers = new Map<string, Set<string>>();
  for (const { path, source } of files) {
    const { modules, computed, names, onlyReExports } = importsOf(source);
    const room = roomOf(path);
    const isDoor = doors.includes(room);
    if (!isKnown(room)) found.push(`${path} lies in no known room`);
    if (room === "index" && !onlyReExports) found.push(`${path} does more than re-export`);
    if (computed > 0) found.push(`${path} imports a module whose name is computed`);
    if (!isDoor) {
      for (const name of outside) if (names.has(name)) found.push(`${path} uses ${name}, which is for the doors`);
    }
    for (const module of new Set(modules)) {
      if (module.startsWith(".")) {
        const problem = arrow(path, room, module);
        if (problem !== null) found.push(`${path} imports ${module}: ${problem}`);
      } else if (module.startsWith("node:")) {
        if (!isDoor) found.push(`${path} imports ${module}, which is for the doors`);
      } else {
        const name = packageOf(module);
        if (!packages.includes(name)) found.push(`${path} imports ${module}, which is no dependency`);
        importers.set(name, (importers.get(name) ?? new Set()).add(path));
      }
    }
  }
  for (const [name, paths] of importers) {
    if (paths.size > 1) found.push(`${name} is imported by more than one file: ${[...paths].sort().join(", ")}`);
  }
  return found;
}

function isKnown(room: string): boolean {
  return [...rooms, ...basement, ...doors, "pipeline", "index"].includes(room);
}

/** @returns what is wrong with an import of our own, or null */
function arrow(path: string, room: string, module: string): string | null {
  const target = posix.join(posix.dirname(path), module);
  if (target.startsWith("..")) return "it lies outside src";
  if (!target.endsWith(".js")) return 'it does not end in ".js"';
  const to = roomOf(target);
  if (to === room || doors.includes(room) || basement.includes(to)) return null;
  if (doors.includes(to)) return "only a door may reach for a door";
  if (room === "pipeline" || room === "index") return null;
  return basement.includes(room) ? "the basement reaches for no room" : "a room reaches for nothing but the basement";
}

/** A file beside a folder of its name belongs to that folder's room. */
function roomOf(path: string): string {
  const [first = ""] = path.split("/");
  return first.replace(/(\.d)?\.[jt]s$/, "");
}

function packageOf(module: string): string {
  return module
    .split("/")
    .slice(0, module.startsWith("@") ? 2 : 1)
    .join("/");
}
