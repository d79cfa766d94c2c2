import { spokenId } from "../words/measurement-id.js";
import type { Unpaired } from "./changes.js";

export interface UnpairedTogether extends Omit<Unpaired, "id"> {
  /** Of measurements, as they are spoken of. */
  readonly ids: readonly string[];
}

/** What has no counterpart for one reason, in one line. */
export function unpairedTogether(unpaired: readonly Unpaired[]): UnpairedTogether[] {
  const lines = new Map<string, UnpairedTogether & { ids: string[] }>();
  for (const { id, ...rest } of unpaired) {
    const key = JSON.stringify(rest);
    const line = lines.get(key) ?? { ...rest, ids: [] };
    lines.set(key, line);
    line.ids.push(rest.what === "measurement" ? spokenId(id) : id);
  }
  return [...lines.values()];
}
