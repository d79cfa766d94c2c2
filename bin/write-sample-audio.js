#!/usr/bin/env node
// Writes the ready session of sample-audio anew. The same code writes the same bytes on one platform.
import { fileURLToPath } from "node:url";
import { sampleSession } from "../dist/cli/sample-audio.js";
import { writeSession } from "../dist/cli/write-session.js";

const { simulated, recipe } = sampleSession();
await writeSession(fileURLToPath(new URL("../sample-audio", import.meta.url)), simulated, recipe);
