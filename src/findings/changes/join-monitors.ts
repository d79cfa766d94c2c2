import type { Said } from "../../schema/changes.js";
import { listed } from "../../words/numbers.js";

/**
 * Says once what is the same of several monitors, as of the modes, which are the room's.
 *
 * @param said - each beginning with its monitor and a colon, where it is one monitor's
 */
export function joinMonitors(said: readonly Said[]): Said[] {
  const joined = new Map<string, { readonly first: Said; readonly monitors: string[]; readonly rest: string }>();
  for (const one of said) {
    const rest = one.message.slice(`${one.monitor ?? ""}: `.length);
    const isOwn = one.monitor !== null && one.message === `${one.monitor}: ${rest}`;
    const key = JSON.stringify(isOwn ? [one.topic, rest, one.figures] : [one.topic, one.message, one.monitor, "whole"]);
    const known = joined.get(key);
    if (known) known.monitors.push(one.monitor!);
    else joined.set(key, { first: one, monitors: isOwn ? [one.monitor!] : [], rest });
  }
  return [...joined.values()].map(({ first, monitors, rest }) =>
    monitors.length > 1 ? { ...first, monitor: null, message: `${listed(monitors)}: ${rest}` } : first,
  );
}
