import type { Unpaired } from "./changes.js";

export interface UnpairedTogether extends Omit<Unpaired, "id"> {
  readonly ids: readonly string[];
}

/** What has no counterpart for one reason, in one line. */
export function unpairedTogether(unpaired: readonly Unpaired[]): UnpairedTogether[] {
  const lines = new Map<string, UnpairedTogether & { ids: string[] }>();
  for (const { id, ...rest } of unpaired) {
    const key = JSON.stringify(rest);
    const line = lines.get(key) ?? { ...rest, ids: [] };
    lines.set(key, line);
    line.ids.push(id);
  }
  return [...lines.values()];
}
