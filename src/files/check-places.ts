import { InputError } from "../errors.js";
import type { Session } from "../model.js";
import type { JsonPath, JsonText } from "../schema/json-text.js";
import { placeOf } from "../schema/validate.js";

type Point = readonly [number, number, number];

const AXES = [
  { name: "x", end: "the front wall", farEnd: "the rear wall", far: "lengthM", size: "length" },
  { name: "y", end: "the left wall", farEnd: "the right wall", far: "widthM", size: "width" },
  { name: "z", end: "the floor", farEnd: "the ceiling", far: "heightM", size: "height" },
] as const;

/** Nearer to each other two loudspeakers, or a loudspeaker and a microphone, are one and the same point by mistake. */
const LEAST_APART_M = 0.05;

/**
 * Holds all places that a session states against its room, as far as its dimensions are stated.
 *
 * A loudspeaker may stand in a wall, flush with its face, and a panel may hang on one; a microphone may not.
 *
 * @throws {InputError} at the first place outside, that names its field
 */
export function checkPlaces({ room, monitors, positions, panels = [] }: Session, document: JsonText): void {
  const inside = (what: string, at: Point, path: JsonPath, mayTouch: boolean): void => {
    for (const [axis, { name, end, farEnd, far, size }] of AXES.entries()) {
      const value = at[axis]!;
      const most = room?.[far];
      const where = placeOf(document, [...path, axis]);
      const remedy = `give ${name} in metres from ${end}${most === undefined ? "" : `, up to ${most}`}, or correct "${far}" of the room`;
      if (value < 0 || (value === 0 && !mayTouch))
        throw new InputError(
          `${what} stands ${value === 0 ? "in" : name === "z" ? "under" : "behind"} ${end}: ${name} is ${value} m.`,
          {
            where,
            remedy,
          },
        );
      if (value === most && !mayTouch)
        throw new InputError(`${what} stands in ${farEnd}: ${name} is ${value} m, as the room's ${size}.`, {
          where,
          remedy,
        });
      if (most !== undefined && value > most)
        throw new InputError(`${what} stands outside the room: ${name} is ${value} m, its ${size} ${most} m.`, {
          where,
          remedy,
        });
    }
  };
  for (const [n, { id, placement }] of monitors.entries()) {
    for (const side of ["L", "R"] as const) {
      const at = placement?.[side];
      if (at)
        inside(
          `The ${side === "L" ? "left" : "right"} loudspeaker of "${id}"`,
          at,
          ["monitors", n, "placement", side],
          true,
        );
    }
    if (placement?.L && placement.R && apartM(placement.L, placement.R) < LEAST_APART_M)
      throw new InputError(`The left and the right loudspeaker of "${id}" are at one and the same place.`, {
        where: placeOf(document, ["monitors", n, "placement", "R"]),
        remedy: "measure again where each of them stands",
      });
  }
  for (const [n, { id, xyzM }] of positions.entries()) {
    if (!xyzM) continue;
    inside(`The position "${id}"`, xyzM, ["positions", n, "xyzM"], false);
    refuseOneSpot(id, xyzM, monitors, placeOf(document, ["positions", n, "xyzM"]));
  }
  for (const [n, { id, centreM }] of panels.entries()) {
    inside(`The panel "${id}"`, centreM, ["panels", n, "centreM"], true);
  }
}

const apartM = (a: Point, b: Point): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

function refuseOneSpot(id: string, at: Point, monitors: Session["monitors"], where: string): void {
  for (const { id: monitor, placement } of monitors) {
    for (const other of [placement?.L, placement?.R]) {
      if (other && apartM(at, other) < LEAST_APART_M) {
        throw new InputError(`The position "${id}" and a loudspeaker of "${monitor}" are at one and the same place.`, {
          where,
          remedy: "measure again where the microphone and where the loudspeaker stood",
        });
      }
    }
  }
}
