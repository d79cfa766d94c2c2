import { along, difference, dot, type Point, unit } from "./point.js";
import { heightOver, mirrored, type Surface } from "./surfaces.js";

/** Where a panel sends the sound that meets its middle. */
export interface PassesBy {
  /** Over the listener, at the point nearest to him seen from above; negative: under. */
  readonly aboveM: number;
  /** From the listener there, seen from above. */
  readonly asideM: number;
}

/**
 * Follows the sound that a panel's middle reflects, to where it passes the listener.
 *
 * @returns null where loudspeaker and listener are on different sides of the panel, or the sound leaves straight up or down, or away
 * @example passesBy([2, 1, 1], [3, 1, 1], panelAt45) // sent straight up: null
 */
export function passesBy(sourceM: Point, receiverM: Point, panel: Surface): PassesBy | null {
  if (heightOver(panel, sourceM) * heightOver(panel, receiverM) <= 0) return null;
  const from = panel.pointM;
  const direction = unit(difference(from, mirrored(panel, sourceM)));
  const level: Point = [direction[0], direction[1], 0];
  const speed = dot(level, level);
  if (speed < 1e-9) return null;
  const towards = difference(receiverM, from);
  const times = dot(towards, level) / speed;
  if (times <= 0) return null;
  const nearest = along(from, direction, times);
  return {
    aboveM: nearest[2] - receiverM[2],
    asideM: Math.hypot(nearest[0] - receiverM[0], nearest[1] - receiverM[1]),
  };
}
