import type { Measurement, Session } from "../../model.js";

/** Everything of one monitor at one position. */
export interface Place {
  readonly position: Session["positions"][number];
  /** Left and right, or whatever one monitor has; the same channels at every place. */
  readonly channels: readonly Measurement[];
}

/** Left and right where there are any, else whatever was measured. */
export function sidesOf(measured: readonly Measurement[]): readonly Measurement[] {
  const sides = measured.filter(({ channel }) => channel !== "both");
  return sides.length > 0 ? sides : measured;
}

/**
 * The positions at which all of a monitor was measured, in the order of the session.
 *
 * One where a channel is missing is left out: a mean over positions must not be one of left here and of both there.
 *
 * @param own - measurements of one monitor, none derived
 */
export function placesOf(own: readonly Measurement[], positions: Session["positions"]): Place[] {
  const sides = sidesOf(own);
  const wanted = new Set(sides.map(({ channel }) => channel)).size;
  return positions
    .map((position) => ({ position, channels: sides.filter((one) => one.position === position.id) }))
    .filter(({ channels }) => wanted > 0 && channels.length === wanted);
}

/** 20 degrees; a rule of half a wavelength needs no better. */
const SPEED_OF_SOUND = 343;

/**
 * How many of some positions are independent places in the room at a frequency: half a wavelength or more from one another.
 *
 * Places within a head's reach (20 cm) are one place in the room below about 850 Hz: what they differ by says how the sound
 * changes when the head moves, not how it changes through the room. Without coordinates `mix` and `near` count as one place
 * at every frequency, since nobody knows their distance, and every `room` position as a place of its own.
 *
 * @returns at least 1 when there is a position
 * @remarks Source of the half wavelength: ISO 3382-2:2008, 4.3, from memory, medium to high confidence. How places without
 *   coordinates count is a choice of ours.
 */
export function independentPlaces(positions: Session["positions"], frequencyHz: number): number {
  const leastM = SPEED_OF_SOUND / (2 * frequencyHz);
  const apart: Session["positions"] = [];
  for (const position of positions) {
    if (apart.every((other) => areApart(position, other, leastM))) apart.push(position);
  }
  return apart.length;
}

function areApart(a: Session["positions"][number], b: Session["positions"][number], leastM: number): boolean {
  if (a.xyzM && b.xyzM) return Math.hypot(...a.xyzM.map((metres, axis) => metres - b.xyzM![axis]!)) >= leastM;
  return a.kind === "room" || b.kind === "room";
}
