import type { Finding, Measure } from "../../model.js";
import { AIR } from "../../standards/absorbers/porous-material.js";

/** Turning down the louder side. Findings have left minus right. */
export function trim({ value, uncertainty, monitors }: Finding): Measure[] {
  if (value === null || monitors[0] === undefined) return [];
  return [
    {
      kind: "level",
      monitor: monitors[0],
      channel: value > 0 ? "L" : "R",
      byDb: -Math.abs(value),
      uncertaintyDb: uncertainty,
    },
  ];
}

/** Delaying the side that comes first, or setting it back. Findings have left minus right. */
export function delay({ value, uncertainty, monitors }: Finding): Measure[] {
  if (value === null || monitors[0] === undefined) return [];
  return [
    {
      kind: "delay",
      monitor: monitors[0],
      channel: value > 0 ? "R" : "L",
      byS: Math.abs(value),
      uncertaintyS: uncertainty,
      orM: AIR.soundSpeedMPerS * Math.abs(value),
    },
  ];
}
