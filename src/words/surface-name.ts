import type { MeasurementSurfaces } from "../model.js";

const FACES: Readonly<Record<string, string>> = {
  front: "the front wall",
  rear: "the rear wall",
  left: "the left wall",
  right: "the right wall",
  floor: "the floor",
  ceiling: "the ceiling",
};

/** A surface as sentences have it: a face by its name, a panel by the id that the session gives it. */
export function surfaceName(id: string): string {
  return (isFace(id) ? FACES[id] : undefined) ?? `“${id}”`;
}

/** Whether it is one of the room's six faces, which nobody turns. */
export function isFace(id: string): boolean {
  return Object.hasOwn(FACES, id);
}

/** The surface that is to one side of a pair what this is to the other. */
export function mirroredSurface(id: string): string {
  return id === "left" ? "right" : id === "right" ? "left" : id;
}

type Origin = Pick<MeasurementSurfaces["origins"][number], "surfaces" | "confidence">;

/** A way by one surface or two, in words. */
export function wayName(surfaces: readonly string[]): string {
  return surfaces.map(surfaceName).join(" and then ");
}

/** From here up a way is called by name, and below it is said to be possible: no more than 1 in 200 named so is wrong in simulated rooms. */
const NAMED = 0.7;
/** Several share a peak when each of them is this likely. */
const SHARES = 0.25;

/**
 * The ways that a reflection is said to come by: one that is likely enough alone, or all that are about as likely as each other.
 *
 * @param origins - of one reflection, the likeliest first
 * @returns `certainty` is the chance that it is one of them
 */
export function namedWays<One extends Origin>(
  origins: readonly One[],
): { ways: One[]; certainty: number; isSure: boolean } {
  const [first, ...others] = origins;
  if (!first) return { ways: [], certainty: 0, isSure: false };
  const ways =
    first.confidence >= NAMED ? [first] : [first, ...others.filter(({ confidence }) => confidence >= SHARES)];
  const certainty = ways.reduce((sum, { confidence }) => sum + confidence, 0);
  return { ways, certainty, isSure: certainty >= NAMED };
}

/**
 * Where a reflection comes from, in words.
 *
 * @param origins - of one reflection, the likeliest first
 * @returns `certainty` is the chance that what is named is right; null where nothing is named
 * @example originWords([{ surfaces: ["floor"], confidence: 0.9 }]) // the floor, 0.9
 */
export function originWords(origins: readonly Origin[]): { text: string; certainty: number | null; isSure: boolean } {
  const { ways, certainty, isSure } = namedWays(origins);
  if (ways.length === 0) return { text: "no surface that is stated", certainty: null, isSure };
  const text = ways.map(({ surfaces }) => wayName(surfaces)).join(" or ");
  return { text: isSure ? text : `perhaps ${text}`, certainty, isSure };
}

/** Where sound comes from, as the listener has it who looks at the front wall. */
export function directionWords(azimuthDeg: number, elevationDeg: number): string {
  const level = Math.round(Math.abs(azimuthDeg));
  const across = level < 3 ? "ahead" : level > 177 ? "behind" : `${level}° ${azimuthDeg < 0 ? "left" : "right"}`;
  const steep = Math.round(Math.abs(elevationDeg));
  return steep < 3 ? across : `${across}, ${steep}° ${elevationDeg > 0 ? "up" : "down"}`;
}
