import { readdirSync } from "node:fs";
import { join, relative } from "node:path";

/** All files below a folder, relative to it with "/"; links count as files. None where there is no folder. */
export function filesBelow(folder: string): string[] {
  try {
    return readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => !entry.isDirectory())
      .map((entry) => relative(folder, join(entry.parentPath, entry.name)).replaceAll("\\", "/"));
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return [];
    throw error;
  }
}
