import { renameSync } from "node:fs";

/**
 * Puts a folder in the place of another by two moves, and undoes the first if the second fails.
 *
 * @throws the system's error; the present folder is then in its place
 */
export function swapHere(present: string, fresh: string, old: string): void {
  renameSync(present, old);
  try {
    renameSync(fresh, present);
  } catch (error) {
    renameSync(old, present);
    throw error;
  }
}
