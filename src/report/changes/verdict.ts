import type { ChangedQuantity } from "../../schema/changes.js";
import { type Cell, type ChangeMark, marked } from "../sections/section.js";

const words: Readonly<Record<ChangeMark, string>> = {
  better: "better",
  worse: "worse",
  changed: "changed",
  same: "no real change",
  unknown: "cannot tell",
};

/** A verdict by the mark that stands for it; what has really changed without being better or worse has one of its own. */
export function markOf({ change, verdict }: ChangedQuantity): ChangeMark {
  if (verdict === "better" || verdict === "worse") return verdict;
  if (change === "real") return "changed";
  return change === "none" ? "same" : "unknown";
}

export function verdictCell(entry: ChangedQuantity): Cell {
  const mark = markOf(entry);
  return marked(mark, words[mark]);
}
