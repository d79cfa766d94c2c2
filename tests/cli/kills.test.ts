import { execFile } from "node:child_process";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";

import { describe, expect, it } from "vitest";

const script = fileURLToPath(new URL("../scripts/kills.mjs", import.meta.url));

describe("Commands that are killed outright at random moments", () => {
  it("leave the old results or the new, five times; npm run kills does it 200 times", async () => {
    const { stdout } = await promisify(execFile)(process.execPath, [script, "5", "sweep,init,report"]);
    expect(stdout).toMatch(/^5 kills, 0 damaged outputs/m);
  }, 240_000);
});
