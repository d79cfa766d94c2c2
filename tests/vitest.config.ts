import { fileURLToPath } from "node:url";

import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    root: fileURLToPath(new URL("..", import.meta.url)),
    include: ["tests/**/*.test.ts"],
    reporters: ["default", fileURLToPath(new URL("closing-line.ts", import.meta.url))],
    // Generous, so that only a hang fails on a slow or busy machine; speed is measured by the benchmark.
    maxWorkers: "100%",
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});
