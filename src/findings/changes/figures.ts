import type { ChangedQuantity } from "../../schema/changes.js";
import { fixed, signed } from "../../words/numbers.js";
import { quantity as words } from "../../words/quantity.js";

/** "0.36 to 0.30 s": before and after in one size. */
export function fromTo({ before, after, unit }: ChangedQuantity): string {
  if (before === null || after === null) return "not known";
  if (unit === "s") return `${fixed(before, 2)} to ${fixed(after, 2)} s`;
  if (unit === "Hz") return `${fixed(before, 1)} to ${fixed(after, 1)} Hz`;
  return `${signed(before, 1)} to ${signed(after, 1)} dB`;
}

/** The size of a difference, as it is spoken of: "60 ms", "2.1 dB". */
export function sizeWords({ difference, unit }: ChangedQuantity): string {
  const size = Math.abs(difference ?? 0);
  return spoken(size, unit);
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
