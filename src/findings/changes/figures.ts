import type { ChangedQuantity } from "../../schema/changes.js";
import { fixed, signed } from "../../words/numbers.js";
import { quantity as words } from "../../words/quantity.js";

/** "0.36 to 0.30 s": before and after in one size; what was not found is there at most as strong as is said. */
export function fromTo({ before, after, missing, unit }: ChangedQuantity): string {
  if (before === null || after === null) return "not known";
  const number = (value: number): string =>
    unit === "s" ? fixed(value, 2) : (unit === "Hz" ? fixed : signed)(value, 1);
  const bound = (side: "before" | "after"): string => (missing === side ? "at most " : "");
  return `${bound("before")}${number(before)} to ${bound("after")}${number(after)} ${unit}`;
}

/** The size of a difference, as it is spoken of: "60 ms", "2.1 dB", "at least 24.6 dB". */
export function sizeWords({ difference, missing, unit }: ChangedQuantity): string {
  const size = spoken(Math.abs(difference ?? 0), unit);
  return missing === null ? size : `at least ${size}`;
}

export function spoken(size: number, unit: ChangedQuantity["unit"]): string {
  if (unit === "s" && size >= 0.001) return size < 0.1 ? `${fixed(1000 * size, 0)} ms` : `${fixed(size, 2)} s`;
  return words(size, null, unit, size);
}

/** "−0.06 ± 0.02 s; 0.04 s are enough; just noticed 0.02 s": what stands behind a sentence. */
export function figuresOf({ difference, uncertainty, needed, justNoticeable, unit }: ChangedQuantity): string {
  if (difference === null) return "";
  const like = Math.max(Math.abs(difference), uncertainty ?? 0);
  const parts = [
    words(difference, uncertainty, unit, like),
    needed === null ? null : `${words(needed, null, unit, like)} are enough`,
    justNoticeable === null ? null : `just noticed ${words(justNoticeable, null, unit, like)}`,
  ];
  return parts.filter((part) => part !== null).join("; ");
}
