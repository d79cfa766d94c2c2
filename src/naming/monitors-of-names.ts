import type { Session } from "../model.js";
import type { NamedMonitor } from "./monitor-of-name.js";
import type { Role } from "./vocabulary.js";
import { uniqueIds } from "./unique-ids.js";

const ROLES: readonly Role[] = [
  "main",
  "midfield",
  "nearfield",
  "other",
  "check",
  "car",
  "phone",
  "laptop",
  "tv",
  "headphone",
];

export interface GuessedMonitors {
  readonly list: Session["monitors"];
  readonly doubts: readonly string[];
  idOf(monitor: NamedMonitor): string;
}

/** The monitors that the names speak of, those that are mixed on first. */
export function monitorsOfNames(named: readonly NamedMonitor[]): GuessedMonitors {
  const doubts: string[] = [];
  const known = new Map<string, NamedMonitor>();
  for (const monitor of named) if (!known.has(monitor.key)) known.set(monitor.key, monitor);
  // Without a word of its own a recording belongs to the one monitor that there is.
  const others = [...known.values()].filter(({ key }) => key !== "");
  const only = known.has("") && others.length === 1 ? others[0]! : null;
  if (only) known.delete("");
  const ordered = [...known.values()];
  const isMixedOn = ordered.some(({ role }) => role === "main" || role === "midfield" || role === "nearfield");
  const guessedMain = isMixedOn ? undefined : ordered.find(({ role }) => role === null);
  const withRoles = ordered
    .map((monitor) => ({ monitor, role: monitor.role ?? (monitor === guessedMain ? "main" : "other") }))
    .sort((a, b) => ROLES.indexOf(a.role) - ROLES.indexOf(b.role));
  const ids = uniqueIds(
    withRoles.map(({ monitor }) => monitor.name),
    "monitor",
  );
  const list = withRoles.map(({ monitor, role }, n) => {
    const id = ids[n]!;
    if (monitor.role === null) {
      doubts.push(
        `Nothing says what kind of monitor "${id}" is: written as "${role}". Edit its "role": main, midfield, nearfield, check, car, phone, ...`,
      );
    }
    return { id, role, ...(monitor.name.toLowerCase() === id || monitor.name === "" ? {} : { name: monitor.name }) };
  });
  const byKey = new Map(withRoles.map(({ monitor }, n) => [monitor.key, ids[n]!]));
  return { list, doubts, idOf: ({ key }) => byKey.get(key) ?? byKey.get(only?.key ?? "")! };
}
