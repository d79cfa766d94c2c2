import { DC_OFFSET } from "../../findings/limits.js";
import type { Finding } from "../../model.js";
import { about } from "../findings.js";

/** What is wrong with the sound of one recording. */

export function dcOffset(file: string, offset: number): Finding[] {
  const percent = 100 * Math.abs(offset);
  if (percent < DC_OFFSET.value) return [];
  return [about([file], "warning", "dc-offset", { percent }, { value: percent, unit: "%", limit: DC_OFFSET.value })];
}
