import type { Finding, Measure, Results } from "../../model.js";
import { namedWays } from "../../words/surface-name.js";
import { measuredAtMix, sameReflection } from "../at-mix.js";
import { diffusion } from "./diffusion.js";
import { porous } from "./porous.js";
import { turn } from "./turn.js";

/** From here up reflections are judged; what works there works above. */
const FROM_HZ = 1000;

/** A surface that a reflection may come by, and how far from the listener. */
interface From {
  readonly surface: string | null;
  /** Chance that it is this one. */
  readonly confidence: number;
  readonly distanceM: number | null;
}

/** Against a reflection: turning the surface, a layer where the sound meets it, or making it scatter. */
export function againstReflection(finding: Finding, results: Results): Measure[] {
  const from = whereFrom(finding, results);
  const likely = from.flatMap(({ surface, confidence }) => (surface === null ? [] : [{ surface, confidence }]));
  return [
    ...(likely.length > 1 ? [{ kind: "find-surface" as const, surfaces: likely }] : []),
    ...from.map(({ surface, distanceM }) => turn(surface, distanceM)),
    porous(
      FROM_HZ,
      likely.map(({ surface }) => surface),
      needed(finding),
    ),
    ...from.map(({ surface, distanceM }) => diffusion(FROM_HZ, distanceM, surface)),
  ];
}

/** What a surface that takes nothing yet must take for its reflection to come down to the limit. */
function needed({ value, limit }: Finding): number | null {
  return value === null || limit === null || value <= limit ? null : 1 - 10 ** ((limit - value) / 10);
}

const UNKNOWN: From = { surface: null, confidence: 0, distanceM: null };

/** The surface it comes by, if the places stated say so with certainty, or each of several that fit about as well. */
function whereFrom({ atS, channels, monitors }: Finding, results: Results): From[] {
  const measurement = measuredAtMix(results, monitors[0] ?? "").find(({ channel }) => channels.includes(channel));
  const reflection = measurement && atS !== null ? sameReflection(measurement, atS) : null;
  const own = results.surfaces?.measurements.find(({ id }) => id === measurement?.id);
  if (!measurement || !reflection || !own) return [UNKNOWN];
  const index = measurement.reflections.indexOf(reflection);
  const { ways, isSure } = namedWays(own.origins.filter((one) => one.reflection === index));
  if (!isSure || ways.some(({ surfaces }) => surfaces.length !== 1)) return [UNKNOWN];
  const listener = results.session.positions.find(({ id }) => id === measurement.position)?.xyzM;
  return ways.map(({ surfaces, confidence }) => {
    const surface = surfaces[0]!;
    const at = own.paths.find((path) => path.surface === surface)?.pointM;
    const distanceM = at && listener ? Math.hypot(...at.map((metres, axis) => metres - listener[axis]!)) : null;
    return { surface, confidence, distanceM };
  });
}
