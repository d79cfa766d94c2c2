import type { Finding, Results } from "../../model.js";
import { roomVolumeM3 } from "../../schema/room-volume.js";
import { ENOUGH_PLACES } from "../limits.js";
import { aroundMix } from "../places.js";
import { isMixedOn } from "../../schema/mixed-on.js";
import { stated } from "../stated.js";

/** What was not measured well enough to say, or not stated. */
export function unknown(results: Results): Finding[] {
  const measured = results.measurements.filter(({ derived, quality }) => !derived && quality.usable);
  if (measured.length === 0) return [];
  return [
    ...fewPlaces(results),
    ...perMonitor(results),
    ...(results.monitors.length === 1 ? [say("one-monitor", { monitor: results.monitors[0]!.id })] : []),
    ...gain(results),
    ...(measured.some(({ levelReference }) => levelReference === "transfer") ? [say("not-calibrated", undefined)] : []),
    ...(roomVolumeM3(results.session.room) === null ? [say("no-volume", undefined)] : []),
  ];
}

/** Monitors with too few places for a verdict above 2 kHz, those with equally many together. */
function fewPlaces(results: Results): Finding[] {
  const byCount = new Map<number, string[]>();
  for (const monitor of results.monitors.filter(isMixedOn)) {
    const places = new Set(aroundMix(results, monitor.id).map(({ position }) => position)).size;
    if (places > 0 && places < ENOUGH_PLACES) byCount.set(places, [...(byCount.get(places) ?? []), monitor.id]);
  }
  return [...byCount].map(([places, monitors]) => say("few-places", { monitors, places }, monitors));
}

function perMonitor(results: Results): Finding[] {
  return results.monitors.flatMap(({ id, leftRight, leftRightReason, target, targetReason, response }) => {
    const found: Finding[] = [];
    if (!leftRight && leftRightReason === "one-channel") found.push(say("one-channel", { monitor: id }, [id]));
    if (response && (!target || target.offsetDb === null)) {
      const outsideTarget = targetReason === "target-outside-fit-range";
      found.push(say("target-unknown", { monitor: id, outsideTarget }, [id]));
    }
    return found;
  });
}

function gain({ monitors, comparisons }: Results): Finding[] {
  const pairs = monitors.filter(({ leftRight }) => leftRight?.includesGain).map(({ id }) => id);
  const between = comparisons.some(({ includesGain }) => includesGain);
  if (pairs.length > 0) return [say("gain-unknown", { what: "between left and right, and between monitors," }, pairs)];
  return between ? [say("gain-unknown", { what: "between monitors" })] : [];
}

function say<C extends Parameters<typeof stated>[0]>(
  code: C,
  facts: Parameters<typeof stated<C>>[1],
  monitors: string[] = [],
): Finding {
  return stated(code, facts, { severity: "info", topic: "unknown", monitors });
}
