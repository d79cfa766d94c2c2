import type { Session } from "./session.js";

/**
 * Roles that somebody mixes on. The others, a check speaker among them, have their limits by nature: mixes are only heard on
 * them.
 */
const MIXED_ON: readonly Session["monitors"][number]["role"][] = ["main", "midfield", "nearfield", "other"];

export function isMixedOn({ role }: Pick<Session["monitors"][number], "role">): boolean {
  return MIXED_ON.includes(role);
}
