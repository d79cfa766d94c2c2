// Loaded before a program: kills it outright as it is about to change the disk for the n-th time, n from DIE_AT. Counted
// from where it writes its journal on: before that nothing outside its own work folder is touched.
import childProcess from "node:child_process";
import fs from "node:fs";
import { syncBuiltinESMExports } from "node:module";

let left = Number(process.env.DIE_AT);
let counts = false;
const dying = (own) =>
  function (...values) {
    counts ||= String(values[0]).endsWith("journal.json");
    if (counts && left-- === 0) process.kill(process.pid, "SIGKILL");
    return own.apply(this, values);
  };
for (const name of [
  ...["mkdirSync", "writeFileSync", "renameSync", "linkSync", "symlinkSync", "chmodSync", "rmSync"],
  ...["unlinkSync", "rmdirSync"],
]) {
  fs[name] = dying(fs[name]);
}
childProcess.spawnSync = dying(childProcess.spawnSync);
syncBuiltinESMExports();
