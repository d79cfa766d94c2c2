// Injects every fault of the laboratory at every strength, those that take long too, and prints what was found and what was
// falsely found: node tests/scripts/fault-table.mjs. With "write" the table in DEVELOPERS.md is written anew.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../..", import.meta.url));
const run = spawnSync(
  "npx",
  ["vitest", "run", "--config", "tests/vitest.config.ts", "tests/laboratory", "--disable-console-intercept"],
  {
    cwd: root,
    stdio: "inherit",
    env: { ...process.env, CARRYWELL_FAULTS: process.argv[2] === "write" ? "write" : "all" },
  },
);
process.exitCode = run.status ?? 1;
