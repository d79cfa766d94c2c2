import { range, value } from "./results/figures.js";
import { channelSchema } from "./session.js";
import { z } from "./zod.js";

export const findingSchema = z.strictObject({
  code: z.string(),
  severity: z.enum(["info", "warning", "reject"]),
  /** What to believe, what to mend, what the data cannot say; or the recordings themselves. */
  topic: z.enum(["trust", "mend", "unknown", "recording"]),
  message: z.string(),
  remedy: z.string().nullable(),
  value: value,
  /** Expanded (k = 2), in the same unit. */
  uncertainty: value,
  unit: z.string().nullable(),
  limit: value,
  /** Where the limit comes from. */
  source: z.string().nullable(),
  /** Times the least that is heard; findings of one topic stand in this order. Null where nothing is heard of it. */
  audibility: value,
  atS: value,
  bandHz: value,
  /** Edges of the bands concerned. */
  rangeHz: range.nullable(),
  monitors: z.array(z.string()),
  channels: z.array(channelSchema),
  recordings: z.array(z.string()),
});

export type Finding = z.infer<typeof findingSchema>;

type Stated = Pick<Finding, "code" | "severity" | "topic" | "message">;

/** A finding in which everything that is not stated is not known or does not apply. */
export function finding(parts: Stated & Partial<Finding>): Finding {
  return { ...nothing, monitors: [], channels: [], recordings: [], ...parts };
}

const nothing = {
  remedy: null,
  value: null,
  uncertainty: null,
  unit: null,
  limit: null,
  source: null,
  audibility: null,
  atS: null,
  bandHz: null,
  rangeHz: null,
};
