// Joins the compiled modules of the command line into a few files: finding and reading hundreds was a sixth of a quick run.
import { fileURLToPath } from "node:url";

import { rolldown } from "rolldown";

const program = await rolldown({
  cwd: fileURLToPath(new URL("../dist", import.meta.url)),
  input: {
    main: "./cli/main.js",
    // Those that are started by their file's name.
    thread: "./workers/thread.js",
    "render-thread": "./workers/render-thread.js",
    "swap-process": "./files/publish/swap-process.js",
  },
  platform: "node",
  // They bring compiled code or start threads of their own, and find it beside themselves.
  external: ["@wasm-audio-decoders/flac", "@alexanderolsen/libsamplerate-js"],
});
// As deep as the modules themselves: their paths to templates and to each other hold.
await program.write({ dir: "program", format: "esm", cleanDir: true });
