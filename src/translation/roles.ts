import type { MonitorResult } from "../model.js";

/** Roles that somebody mixes on. The others have their limits by nature: mixes are only heard on them. */
const MIXED_ON: readonly MonitorResult["role"][] = ["main", "midfield", "nearfield", "check", "other"];

export function isMixedOn({ role }: Pick<MonitorResult, "role">): boolean {
  return MIXED_ON.includes(role);
}
