import type { Results } from "../../model.js";
import type { Section } from "./section.js";
import { dipTables } from "./surfaces/dip-tables.js";
import { lateBlocks } from "./surfaces/late-blocks.js";
import { pathTables } from "./surfaces/path-tables.js";

/** What walls, floor and panels do: early reflections, dips, flutter, and what comes back from other rooms. */
export function surfaceSection(results: Results): Section {
  const section = { id: "surfaces", heading: "What the surfaces do", pictures: [] };
  if (!results.surfaces) return { ...section, tables: [] };
  return { ...section, tables: [...pathTables(results), ...dipTables(results), ...lateBlocks(results)] };
}
