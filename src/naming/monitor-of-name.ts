import type { Belongs } from "./divide-unknown.js";
import type { NamePart } from "./parts-of-name.js";
import type { Role } from "./vocabulary.js";

/** The monitor that a name speaks of. */
export interface NamedMonitor {
  /** Alike for the same monitor: "near" and "Nearfields" are one. */
  readonly key: string;
  readonly role: Role | null;
  /** As written; empty if the name says nothing of a monitor. */
  readonly name: string;
}

export function monitorOfName(parts: readonly NamePart[], belongs: ReadonlyMap<string, Belongs>): NamedMonitor {
  let role: Role | null = null;
  const words: string[] = [];
  const more: string[] = [];
  for (const { text, says } of parts) {
    const isOwn = says.kind === "monitor" || (says.kind === "unknown" && belongs.get(text.toLowerCase()) === "monitor");
    if (says.kind === "role") role = says.role;
    else if (!isOwn) continue;
    else more.push(text.toLowerCase());
    words.push(text);
  }
  return { key: [role ?? "", ...more].join(" "), role, name: words.join(" ") };
}
