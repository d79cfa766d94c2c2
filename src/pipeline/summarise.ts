import { averageResponse, spreadDb } from "../comparison/average-response.js";
import { bandCurve, curveDifference } from "../comparison/band-curve.js";
import { extension } from "../comparison/extension.js";
import { samePolarity } from "../impulse/same-polarity.js";
import type { MonitorResult, Results, Session } from "../model.js";
import type { Measured } from "./labour.js";

/** Difference of arrival between the loudspeakers of a pair at one place. */
export interface PairArrival {
  /** Left minus right, seconds. */
  readonly differenceS: number;
  readonly uncertaintyS: number;
}

/**
 * How much later left arrives than right, from reels that hold both on one clock.
 *
 * The player's clock is known only as far as the markers tell: the time between the sweeps carries that uncertainty.
 *
 * @returns null when no recording holds both channels with a known clock
 */
export function pairArrival(left: Measured, right: Measured): PairArrival | null {
  const differences: number[] = [];
  let uncertaintyS = 0;
  for (const a of left.group.takes) {
    for (const b of right.group.takes) {
      if (a.recording !== b.recording || a.arrivalPlayedS === null || b.arrivalPlayedS === null || !a.drift) continue;
      differences.push(a.arrivalPlayedS - b.arrivalPlayedS);
      const clockS = Math.abs(b.playedAtS - a.playedAtS) * a.drift.uncertaintyPpm * 1e-6;
      uncertaintyS = Math.max(uncertaintyS, Math.hypot(clockS, a.arrivalUncertaintyS, b.arrivalUncertaintyS));
    }
  }
  if (differences.length === 0) return null;
  return { differenceS: differences.reduce((sum, one) => sum + one, 0) / differences.length, uncertaintyS };
}

/** Sums a monitor up: the pair at the mix position, its positions, its reach, left against right. */
export function summariseMonitor(
  monitor: Session["monitors"][number],
  session: Session,
  all: readonly Measured[],
): MonitorResult {
  const own = all.filter(({ measurement }) => measurement.monitor === monitor.id && !measurement.derived);
  const mixId = session.positions.find((position) => position.kind === "mix")?.id;
  const atMix = own.filter(({ measurement }) => measurement.position === mixId);
  const sides = sidesOf(atMix);
  const mixReason = mixId === undefined ? "no-mix-position" : "not-measured-at-mix";
  const left = sides.find(({ measurement }) => measurement.channel === "L");
  const right = sides.find(({ measurement }) => measurement.channel === "R");
  return {
    id: monitor.id,
    name: monitor.name ?? null,
    role: monitor.role,
    channels: [...new Set(own.map(({ measurement }) => measurement.channel))],
    response: sides.length > 0 ? averageResponse(sides.map(({ measurement }) => measurement.response)) : null,
    responseReason: sides.length > 0 ? null : mixReason,
    positions: overPositions(own, session),
    extension: sides.length > 0 ? extension(bandCurve(sides.map(({ measurement }) => measurement))) : null,
    leftRight: left && right ? leftRight(left, right, session) : null,
    leftRightReason: left && right ? null : atMix.length > 0 ? "one-channel" : mixReason,
    target: null,
    targetReason: null,
    checks: [],
  };
}

/** Left and right where there are any, else whatever was measured. */
function sidesOf(measured: readonly Measured[]): readonly Measured[] {
  const sides = measured.filter(({ measurement }) => measurement.channel !== "both");
  return sides.length > 0 ? sides : measured;
}

function overPositions(own: readonly Measured[], session: Session): MonitorResult["positions"] {
  const ids = session.positions
    .map(({ id }) => id)
    .filter((id) => own.some(({ measurement }) => measurement.position === id));
  if (ids.length < 2) return null;
  const perPosition = ids.map((id) => {
    const sides = sidesOf(own.filter(({ measurement }) => measurement.position === id));
    const responses = sides.map(({ measurement }) => measurement.response);
    const average = averageResponse(responses);
    const nothing = average.frequencyHz.map(() => null);
    return { ...average, directDb: nothing, phaseDeg: nothing, groupDelayS: nothing, validHz: null };
  });
  return { ids, response: averageResponse(perPosition), spreadDb: spreadDb(perPosition), bands: [], decay: [] };
}

function leftRight(left: Measured, right: Measured, session: Session): NonNullable<MonitorResult["leftRight"]> {
  const difference = curveDifference(bandCurve([left.measurement]), bandCurve([right.measurement]));
  const arrival = pairArrival(left, right);
  return {
    levelDb: difference.levelDb,
    levelUncertaintyDb: null,
    arrivalS: arrival?.differenceS ?? null,
    arrivalUncertaintyS: arrival?.uncertaintyS ?? null,
    includesGain: session.microphone?.gainFixed !== true && !shareFile(left, right),
    samePolarity: samePolarity(left.impulse, right.impulse),
    bands: difference.bands,
    oneSided: [],
    phantom: null,
  };
}

function shareFile(a: Measured, b: Measured): boolean {
  return a.group.takes.every((take) => b.group.takes.some((other) => other.recording.file === take.recording.file));
}

/** Compares every pair of monitors at the mix position. */
export function compareMonitors(session: Session, all: readonly Measured[]): Results["comparisons"] {
  const mixId = session.positions.find((position) => position.kind === "mix")?.id;
  const curves = session.monitors.flatMap((monitor) => {
    const sides = sidesOf(
      all.filter(({ measurement: one }) => one.monitor === monitor.id && one.position === mixId && !one.derived),
    );
    return sides.length > 0 ? [{ id: monitor.id, curve: bandCurve(sides.map(({ measurement }) => measurement)) }] : [];
  });
  return curves.flatMap((a, index) =>
    curves.slice(index + 1).map((b) => {
      const difference = curveDifference(a.curve, b.curve);
      return {
        a: a.id,
        b: b.id,
        levelOffsetDb: difference.levelDb,
        levelUncertaintyDb: null,
        includesGain: session.microphone?.gainFixed !== true,
        bands: difference.bands,
        roomBands: null,
        extension: { aHz: null, bHz: null, gapOctaves: null },
        arrivalS: null,
        arrivalReason: null,
        decay: [],
        shows: [],
      };
    }),
  );
}
