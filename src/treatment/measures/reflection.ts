import type { Finding, Measure, Results } from "../../model.js";
import { originWords } from "../../words/surface-name.js";
import { measuredAtMix, sameReflection } from "../at-mix.js";
import { diffusion } from "./diffusion.js";
import { porous } from "./porous.js";
import { turn } from "./turn.js";

/** From here up reflections are judged; what works there works above. */
const FROM_HZ = 1000;

/** Against a reflection: turning the surface, a layer where the sound meets it, or making it scatter. */
export function againstReflection(finding: Finding, results: Results): Measure[] {
  const { surface, distanceM } = whereFrom(finding, results);
  return [turn(surface, distanceM), porous(FROM_HZ, surface, needed(finding)), diffusion(FROM_HZ, distanceM)];
}

/** What a surface that takes nothing yet must take for its reflection to come down to the limit. */
function needed({ value, limit }: Finding): number | null {
  return value === null || limit === null || value <= limit ? null : 1 - 10 ** ((limit - value) / 10);
}

/** The surface it comes by, if the places stated say so with certainty, and how far from the listener. */
function whereFrom(
  { atS, channels, monitors }: Finding,
  results: Results,
): { surface: string | null; distanceM: number | null } {
  const unknown = { surface: null, distanceM: null };
  const measurement = measuredAtMix(results, monitors[0] ?? "").find(({ channel }) => channels.includes(channel));
  const reflection = measurement && atS !== null ? sameReflection(measurement, atS) : null;
  const own = results.surfaces?.measurements.find(({ id }) => id === measurement?.id);
  if (!measurement || !reflection || !own) return unknown;
  const index = measurement.reflections.indexOf(reflection);
  const origins = own.origins.filter((one) => one.reflection === index);
  const [first] = origins;
  if (!originWords(origins).isSure || origins.length === 0 || first?.surfaces.length !== 1) return unknown;
  const surface = first.surfaces[0]!;
  const at = own.paths.find((path) => path.surface === surface)?.pointM;
  const listener = results.session.positions.find(({ id }) => id === measurement.position)?.xyzM;
  if (!at || !listener) return { surface, distanceM: null };
  return { surface, distanceM: Math.hypot(...at.map((metres, axis) => metres - listener[axis]!)) };
}
