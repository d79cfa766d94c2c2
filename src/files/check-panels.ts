import { InputError } from "../errors.js";
import type { Session } from "../model.js";
import type { JsonPath, JsonText } from "../schema/json-text.js";
import { placeOf } from "../schema/validate.js";
import { isFace, surfaceName } from "../words/surface-name.js";

/** Where the room's size is not stated, nothing that hangs or stands in it is larger: a choice of ours. */
const LARGEST_M = 20;

/**
 * Holds the panels that a session describes against its room: names that no face of it has, a direction, a size that fits in.
 *
 * @throws {InputError} at the first that cannot be, that names its field
 */
export function checkPanels({ room, panels = [] }: Session, document: JsonText): void {
  const stated = [room?.lengthM, room?.widthM, room?.heightM].filter((size) => size !== undefined);
  const most = stated.length === 3 ? Math.max(...stated) : LARGEST_M;
  for (const [n, { id, normal, widthM, heightM }] of panels.entries()) {
    const refuse = (field: JsonPath[number], message: string, remedy: string): never => {
      throw new InputError(`The panel "${id}" ${message}`, { where: placeOf(document, ["panels", n, field]), remedy });
    };
    if (isFace(id.toLowerCase())) {
      refuse(
        "id",
        `has the name of ${surfaceName(id.toLowerCase())}: nobody could tell the two apart.`,
        "give it another id; walls, floor and ceiling are known by the room and need no panel",
      );
    }
    if (normal.every((value) => value === 0)) {
      refuse(
        "normal",
        "looks nowhere: its normal is 0, 0, 0.",
        "give the direction its face looks in: 1, 0, 0 away from the front wall, 0, 0, 1 up",
      );
    }
    for (const [field, size, is] of [
      ["widthM", widthM, "wide"],
      ["heightM", heightM, "high"],
    ] as const) {
      if (size <= most) continue;
      const than =
        stated.length === 3 ? `the room has no side longer than ${most} m` : `no more than ${most} m is taken`;
      refuse(field, `is ${size} m ${is}, and ${than}.`, `give "${field}" in metres, not centimetres`);
    }
  }
}
