import { bandCurve } from "../comparison/band-curve.js";
import { checkMonitor } from "../comparison/checks/check-monitor.js";
import { builtInTarget, defaultTarget } from "../comparison/target/built-in-target.js";
import { holdAgainstTarget } from "../comparison/target/hold-against-target.js";
import { originWords } from "../comparison/target/origin-words.js";
import type { Target } from "../comparison/target/target.js";
import { InputError } from "../errors.js";
import type { Measurement, MonitorResult, Session } from "../model.js";
import { builtInTargets } from "../schema/built-in-targets.js";
import { roomVolumeM3 } from "../schema/room-volume.js";
import { IN_ROOM_TOLERANCE } from "../standards/in-room-curves.js";

/**
 * Adds to a monitor's summary what it is held against: its target, and the limits of the room standards.
 *
 * @param all - every measurement of the session
 * @param own - targets that the session brought, by id
 */
export function againstTargets(
  summary: MonitorResult,
  session: Session,
  all: readonly Measurement[],
  own: ReadonlyMap<string, Target>,
): MonitorResult {
  const mixId = session.positions.find(({ kind }) => kind === "mix")?.id;
  const atMix = all.filter(
    ({ monitor, position, derived }) => monitor === summary.id && position === mixId && !derived,
  );
  const each = atMix.filter(({ channel }) => channel !== "both");
  const sides = each.length > 0 ? each : atMix;
  if (sides.length === 0) return { ...summary, target: null, targetReason: summary.responseReason, checks: [] };
  const named = session.monitors.find(({ id }) => id === summary.id)?.target;
  const { target, reason } = holdAgainstTarget(bandCurve(sides), targetOf(named, summary.role, own));
  return {
    ...summary,
    target,
    targetReason: reason,
    checks: checkMonitor(sides, summary, roomVolumeM3(session.room)),
  };
}

/** The target that a monitor names, or its role's. */
export function targetOf(
  named: string | undefined,
  role: MonitorResult["role"],
  own: ReadonlyMap<string, Target>,
): Target {
  if (named === undefined) return builtInTarget(defaultTarget(role));
  const builtIn = builtInTargets.find((id) => id === named);
  const target = builtIn ? builtInTarget(builtIn) : own.get(named);
  if (target) return withLimits(target);
  throw new InputError(`There is no target "${named}".`, {
    where: "session.json",
    remedy: `add it to "targets", or use one of: ${[...own.keys(), ...builtInTargets].join(", ")}`,
  });
}

/** A curve of one's own that states no limit has the tolerance of the curves that are built in. */
function withLimits(target: Target): Target {
  if (target.limits.some(({ lower, upper }) => lower !== null || upper !== null)) return target;
  return {
    ...target,
    source: `${target.source}; tolerance ${originWords(IN_ROOM_TOLERANCE)}`,
    limits: IN_ROOM_TOLERANCE,
  };
}
