import { spawnSync } from "node:child_process";
import { existsSync, renameSync } from "node:fs";

/** Two moves, and the first undone if the second fails. */
const MOVES = `trap "" HUP INT TERM
mv -- "$1" "$2" || exit 1
mv -- "$3" "$1" || { mv -- "$2" "$1"; exit 1; }`;

/**
 * Puts a folder in the place of another.
 *
 * No system that Node runs on lets it exchange two folders at once, and between two moves there is no folder at all.
 * Therefore a process of its own makes them, which goes on when this one is killed; only where the whole machine stops
 * between the two moves, the next run has to put the old folder back.
 *
 * @param old - where the present folder goes; on the same disk, not there yet
 * @throws the system's error if a move fails; the present folder is then in its place
 */
export function swapFolders(present: string, fresh: string, old: string): void {
  if (process.platform !== "win32") {
    const options = { detached: true, stdio: "ignore" } as const;
    const { status } = spawnSync("/bin/sh", ["-c", MOVES, "sh", present, old, fresh], options);
    if (status === 0) return;
  }
  // Without a shell, or to learn what the system has against it.
  if (existsSync(present)) renameSync(present, old);
  try {
    renameSync(fresh, present);
  } catch (error) {
    renameSync(old, present);
    throw error;
  }
}
