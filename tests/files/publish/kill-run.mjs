// Loaded into every process of a run: as the one that changes the folders is about to move for the n-th time, n from
// KILL_AT, it kills the run that began it.
import fs from "node:fs";
import { syncBuiltinESMExports } from "node:module";

if (process.argv[1]?.endsWith("swap-process.js")) {
  const own = fs.renameSync;
  let left = Number(process.env.KILL_AT);
  fs.renameSync = (...values) => {
    if (left-- === 0) process.kill(process.ppid, "SIGKILL");
    own(...values);
  };
  syncBuiltinESMExports();
}
