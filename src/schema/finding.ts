import type { Finding } from "./results.js";

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
