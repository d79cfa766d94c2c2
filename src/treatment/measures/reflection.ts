import type { Finding, Measure, Results } from "../../model.js";
import { namedWays } from "../../words/surface-name.js";
import { measuredAtMix, sameReflection } from "../at-mix.js";
import { surfaceUse } from "../surface-use.js";
import { cover } from "./cover.js";
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

/**
 * Against a reflection: turning the surface, a layer where the sound meets it, or making it scatter.
 *
 * Nobody turns a floor, nor builds on it or on a top that is worked at: they get a thin cover.
 */
export function againstReflection(finding: Finding, results: Results): Measure[] {
  const from = whereFrom(finding, results).map((one) => ({
    ...one,
    use: one.surface === null ? ("plain" as const) : surfaceUse(one.surface, results),
  }));
  const likely = from.flatMap(({ surface, confidence }) => (surface === null ? [] : [{ surface, confidence }]));
  const plain = from.filter(({ use }) => use === "plain");
  const turned = from.filter(({ use }) => use !== "floor");
  return [
    ...(likely.length > 1 ? [{ kind: "find-surface" as const, surfaces: likely }] : []),
    ...turned.map(({ surface, distanceM, use }) => turn(surface, distanceM, use === "plain")),
    ...layersOn(
      likely.map(({ surface }) => surface),
      FROM_HZ,
      results,
      needed(finding),
    ),
    ...plain.map(({ surface, distanceM }) => diffusion(FROM_HZ, distanceM, surface)),
  ];
}

/** A porous layer where one can be, and a thin cover where surfaces are in use. */
export function layersOn(
  surfaces: readonly string[],
  frequencyHz: number,
  results: Results,
  neededAbsorption: number | null = null,
): Measure[] {
  const used = surfaces.flatMap((surface) => {
    const use = surfaceUse(surface, results);
    return use === "plain" ? [] : [{ surface, use }];
  });
  const plain = surfaces.filter((surface) => !used.some((one) => one.surface === surface));
  const hasLayer = plain.length > 0 || surfaces.length === 0;
  return [
    ...(hasLayer ? [porous(frequencyHz, plain, neededAbsorption)] : []),
    ...used.map(({ surface, use }) => cover(surface, use, frequencyHz, neededAbsorption)),
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
