import type { ChangePair, Changes } from "../../schema/changes.js";
import { channelName } from "../words/names.js";

/** What stands for before and after on the page: with two monitors, their ids. */
export interface SideNames {
  readonly before: string;
  readonly after: string;
}

export function sideNames({ before, after }: Changes): SideNames {
  return { before: before.monitor ?? "before", after: after.monitor ?? "after" };
}

/** "mains", "mains, left, at mix". */
export function pairName({ monitor, channel, position, kind, derived }: ChangePair, changes: Changes): string {
  const own =
    changes.compares === "monitors" ? `${changes.after.monitor!} against ${changes.before.monitor!}` : monitor;
  return kind === "monitor" || channel === null
    ? own
    : `${own}, ${channelName(channel, derived)}, at ${position ?? "?"}`;
}
