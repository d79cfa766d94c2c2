import { z } from "../zod.js";
import { value } from "./figures.js";

/** What the results were made by, and of which files. */
export const provenanceSchema = z.strictObject({
  version: z.string(),
  settings: z.record(z.string(), z.union([z.number(), z.string(), z.boolean()])),
  files: z.array(
    z.strictObject({
      file: z.string(),
      sha256: z.string(),
      bytes: z.int(),
      use: z.string(),
      sampleRate: value,
      channels: value,
      durationS: value,
      encoding: z.string().nullable(),
    }),
  ),
});
