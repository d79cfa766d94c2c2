import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";

import { swapHere } from "./swap-here.js";

/** `detached` takes the process out of the group that is killed together; documented for `spawn` alone, taken here too. */
const OUT_OF_REACH = { stdio: "ignore", detached: true } as const;

/**
 * Puts a folder in the place of another.
 *
 * Node has no call that exchanges two folders at once, and between two moves there is no folder at all. Therefore a process
 * of its own makes them, which goes on when this one is killed; only where the machine stops between the two moves, some
 * ten microseconds, the next run has to put the old folder back.
 *
 * @param old - where the present folder goes; on the same disk, not there yet
 * @throws the system's error if a move fails; the present folder is then in its place
 */
export function swapFolders(present: string, fresh: string, old: string): void {
  const program = fileURLToPath(new URL("./swap-process.js", import.meta.url));
  spawnSync(process.execPath, [program, present, fresh, old], OUT_OF_REACH);
  // Where no process can be had, or to learn what the system has against it.
  if (existsSync(fresh)) swapHere(present, fresh, old);
}
