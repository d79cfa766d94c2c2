import { averageResponse, spreadDb } from "../comparison/average-response.js";
import { bandCurve, curveDifference } from "../comparison/band-curve.js";
import { extension } from "../comparison/extension.js";
import { oneSidedReflections } from "../comparison/left-right/one-sided-reflections.js";
import { phantomAgainstSides } from "../comparison/left-right/phantom-against-sides.js";
import { bandsOverPositions } from "../comparison/positions/bands-over-positions.js";
import { decayOverPositions } from "../comparison/positions/decay-over-positions.js";
import { type Place, placesOf, sidesOf } from "../comparison/positions/places.js";
import { samePolarity } from "../impulse/same-polarity.js";
import type { Measurement, MonitorResult, Session } from "../model.js";
import type { Measured } from "./labour.js";
import { pairArrival } from "./pair-arrival.js";

/**
 * Sums a monitor up: the pair at the mix position, its positions, its reach, left against right.
 *
 * @param oneSound - monitors whose left and right are not two loudspeakers, so that they are not held against each other
 */
export function summariseMonitor(
  monitor: Session["monitors"][number],
  session: Session,
  all: readonly Measured[],
  oneSound: ReadonlySet<string>,
): MonitorResult {
  const own = all.filter(({ measurement }) => measurement.monitor === monitor.id && !measurement.derived);
  const mixId = session.positions.find((position) => position.kind === "mix")?.id;
  const atMix = own.filter(({ measurement }) => measurement.position === mixId);
  const sides = sidesOf(atMix.map(({ measurement }) => measurement));
  const mixReason = mixId === undefined ? "no-mix-position" : "not-measured-at-mix";
  const left = atMix.find(({ measurement }) => measurement.channel === "L");
  const right = atMix.find(({ measurement }) => measurement.channel === "R");
  const isOne = oneSound.has(monitor.id);
  const phantom = all.find(
    ({ measurement: one }) => one.monitor === monitor.id && one.position === mixId && one.derived,
  );
  return {
    id: monitor.id,
    name: monitor.name ?? null,
    role: monitor.role,
    channels: [...new Set(own.map(({ measurement }) => measurement.channel))],
    response: sides.length > 0 ? averageResponse(sides.map(({ response }) => response)) : null,
    responseReason: sides.length > 0 ? null : mixReason,
    positions: overPositions(
      placesOf(
        own.map(({ measurement }) => measurement),
        session.positions,
      ),
    ),
    extension: sides.length > 0 ? extension(bandCurve(sides)) : null,
    leftRight: left && right && !isOne ? leftRight(left, right, phantom?.measurement ?? null, session) : null,
    leftRightReason: isOne ? "both-speakers" : left && right ? null : atMix.length > 0 ? "one-channel" : mixReason,
    target: null,
    targetReason: null,
    checks: [],
  };
}

function overPositions(places: readonly Place[]): MonitorResult["positions"] {
  if (places.length < 2) return null;
  const perPosition = places.map(({ channels }) => {
    const average = averageResponse(channels.map(({ response }) => response));
    const nothing = average.frequencyHz.map(() => null);
    return { ...average, directDb: nothing, phaseDeg: nothing, groupDelayS: nothing, validHz: null };
  });
  return {
    ids: places.map(({ position }) => position.id),
    response: averageResponse(perPosition),
    spreadDb: spreadDb(perPosition),
    bands: bandsOverPositions(places),
    decay: decayOverPositions(places),
  };
}

function leftRight(
  left: Measured,
  right: Measured,
  phantom: Measurement | null,
  session: Session,
): NonNullable<MonitorResult["leftRight"]> {
  const sides = { left: left.measurement, right: right.measurement };
  const difference = curveDifference(bandCurve([sides.left]), bandCurve([sides.right]));
  const arrival = pairArrival(left, right);
  return {
    levelDb: difference.levelDb,
    levelUncertaintyDb: difference.uncertaintyDb,
    arrivalS: arrival?.differenceS ?? null,
    arrivalUncertaintyS: arrival?.uncertaintyS ?? null,
    includesGain: session.microphone?.gainFixed !== true && !shareFile(left, right),
    samePolarity: samePolarity(left.impulse, right.impulse),
    bands: difference.bands,
    oneSided: oneSidedReflections(sides),
    phantom: phantom && phantomAgainstSides(phantom, sides.left, sides.right, arrival?.uncertaintyS ?? null),
  };
}

function shareFile(a: Measured, b: Measured): boolean {
  return a.group.takes.every((take) => b.group.takes.some((other) => other.recording.file === take.recording.file));
}
