import type { Finding, Session } from "../../model.js";
import * as findings from "../findings.js";
import { filesOf, type Sides } from "./sides.js";

/**
 * Over all places, left and right have to be so far apart in arrival that loudspeakers and microphone put up by a tape, five
 * centimetres off, do not turn one order into the other: 0.15 ms is one standard uncertainty, the swap a change of twice the
 * difference.
 */
const LEAST_DIFFERENCE_S = 300e-6;
/** Measured over stated difference: 1 as stated, -1 swapped. Between lies what is neither. */
const SWAPPED = [-1.5, -0.5] as const;

type Point = readonly [number, number, number];

/**
 * Monitors of which the nearer loudspeaker arrives later, by as much as it should arrive earlier.
 *
 * Needs the places of loudspeakers and microphone, a place off the middle, and left and right on one clock: a reel with its
 * markers, or a loopback. Without those one microphone cannot tell the sides apart, and nothing is claimed.
 */
export function swappedChannels(session: Session, pairs: readonly Sides[], speedOfSound: number): Finding[] {
  return session.monitors.flatMap(({ id, placement }) => {
    const { L, R } = placement ?? {};
    if (!L || !R) return [];
    let product = 0;
    let square = 0;
    const used: Sides[] = [];
    for (const pair of pairs.filter(({ monitor }) => monitor === id)) {
      const place = session.positions.find((position) => position.id === pair.position)?.xyzM;
      const measuredS = differenceOfArrival(pair);
      if (!place || measuredS === null) continue;
      const statedS = (distance(L, place) - distance(R, place)) / speedOfSound;
      product += measuredS * statedS;
      square += statedS ** 2;
      used.push(pair);
    }
    if (Math.sqrt(square) < LEAST_DIFFERENCE_S) return [];
    const ratio = product / square;
    if (ratio < SWAPPED[0] || ratio > SWAPPED[1]) return [];
    return [findings.channelsSwapped(id, ratio, SWAPPED[1], filesOf(used.flatMap(({ left, right }) => [left, right])))];
  });
}

/** Left minus right, seconds; null where the two were not on one clock. */
function differenceOfArrival({ left, right }: Sides): number | null {
  if (left.flightS !== null && right.flightS !== null) return left.flightS - right.flightS;
  if (left.recording !== right.recording || left.arrivalPlayedS === null || right.arrivalPlayedS === null) return null;
  return left.arrivalPlayedS - right.arrivalPlayedS;
}

function distance(a: Point, b: Point): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}
