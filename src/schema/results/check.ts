import { channelSchema } from "../session.js";
import { z } from "../zod.js";
import { value } from "./figures.js";

/** One limit of a recommendation, held against what was measured. */
export const checkSchema = z.strictObject({
  code: z.string(),
  source: z.string(),
  limit: z.string(),
  /** The worst value found; null when it could not be judged, with the reason. */
  value: value,
  unit: z.string().nullable(),
  pass: z.boolean().nullable(),
  reason: z.string().nullable(),
  advisory: z.boolean(),
  channel: channelSchema.nullable(),
  bandHz: value,
});

export type Check = z.infer<typeof checkSchema>;
