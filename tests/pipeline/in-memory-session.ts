import { createHash } from "node:crypto";
import { InputError } from "../../src/errors.js";
import type { SweepRecipe } from "../../src/model.js";
import { analyse, type Analysis, type SessionFiles } from "../../src/pipeline.js";
import { encodeWav } from "../../src/recording/encode-wav.js";
import { sessionSchema } from "../../src/schema/session.js";
import type { z } from "../../src/schema/zod.js";

export type SessionText = z.input<typeof sessionSchema>;

/** The files of a session that are held in memory. */
export function memoryFiles(files: Record<string, Uint8Array>): SessionFiles {
  return {
    read: (file) => {
      const bytes = files[file];
      if (bytes) return Promise.resolve(bytes);
      return Promise.reject(new InputError("The file does not exist.", { where: file, remedy: "check the name" }));
    },
    open: (file) => {
      const bytes = files[file];
      if (!bytes) return Promise.reject(new InputError("The file does not exist.", { where: file, remedy: "check" }));
      return Promise.resolve({
        bytes: bytes.length,
        read: (from, count) => Promise.resolve(bytes.subarray(from, from + count)),
        close: () => Promise.resolve(),
      });
    },
    sha256: () => {
      const hash = createHash("sha256");
      return {
        add: (bytes) => {
          hash.update(bytes);
        },
        hex: () => hash.digest("hex"),
      };
    },
  };
}

/** Analyses a session whose files are held in memory. */
export async function analyseInMemory(session: SessionText, files: Record<string, Uint8Array>): Promise<Analysis> {
  return analyse(sessionSchema.parse(session), memoryFiles(files), { version: "0.0.0-test" });
}

export function text(content: string): Uint8Array {
  return new TextEncoder().encode(content);
}

export function recipeFile(recipe: SweepRecipe): Uint8Array {
  return text(JSON.stringify(recipe));
}

export function mono(samples: Float64Array, sampleRate = 48_000): Uint8Array {
  return encodeWav([samples], sampleRate, "float32");
}
