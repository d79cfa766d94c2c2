import type { Measurement, Results } from "../../model.js";
import type { Unpaired } from "../../schema/changes.js";
import { roomVolumeM3 } from "../../schema/room-volume.js";
import { rmsApart } from "./placement.js";
import type { MeasurementPair, MonitorPair, Side } from "./reading.js";

export interface CompareOptions {
  /** Radius around its old place within which the microphone was put back, 95 times in a hundred; 0: not touched. */
  readonly placementM: number;
  /** One monitor of each; null pairs all by their ids. */
  readonly monitors: { readonly before: string; readonly after: string } | null;
}

/** A monitor of both sides with all that was measured of it on both. */
export interface PairedMonitor {
  readonly monitor: MonitorPair;
  readonly measurements: readonly MeasurementPair[];
}

export interface PairedUp {
  readonly monitors: readonly PairedMonitor[];
  readonly unpaired: readonly Unpaired[];
}

/** Places stated to be farther apart are not one place, whatever they are called: a choice of ours. */
const ONE_PLACE_M = 0.3;

/** Pairs measurements by monitor, channel and position, and says what has no counterpart. */
export function pairUp(before: Results, after: Results, options: CompareOptions): PairedUp {
  const unpaired: Unpaired[] = [];
  const wanted = options.monitors
    ? [options.monitors]
    : before.monitors.filter(({ id }) => measured(before, id).length > 0).map(({ id }) => ({ before: id, after: id }));
  const monitors = wanted.flatMap((ids): PairedMonitor[] => {
    const [old, now] = [sideOf(before, ids.before), sideOf(after, ids.after)];
    if (!old || !now || measured(after, ids.after).length === 0) {
      unpaired.push({ what: "monitor", id: ids.before, in: "before", because: gone(before, after, ids) });
      return [];
    }
    return [pairMonitor(old, now, options, unpaired)];
  });
  if (!options.monitors) {
    for (const { id } of after.monitors) {
      if (measured(after, id).length === 0 || wanted.some((one) => one.after === id)) continue;
      unpaired.push({ what: "monitor", id, in: "after", because: noMonitor(before, id, "before") });
    }
  }
  return { monitors, unpaired };
}

function measured(results: Results, monitor: string): Measurement[] {
  return results.measurements.filter((one) => one.monitor === monitor);
}

function sideOf(results: Results, id: string): Side | null {
  const monitor = results.monitors.find((one) => one.id === id);
  return monitor ? { results, monitor, volumeM3: roomVolumeM3(results.session.room) } : null;
}

function noMonitor({ monitors }: Results, id: string, when: string): string {
  const has = monitors.some((one) => one.id === id);
  if (has) return `${when} it was not measured`;
  return `${when} there is no monitor "${id}", but ${monitors.map((one) => `"${one.id}"`).join(", ")}`;
}

/** With the command that pairs it by hand with one that only the other session has, of the same role if there is one. */
function gone(before: Results, after: Results, ids: { readonly before: string; readonly after: string }): string {
  const because = noMonitor(after, ids.after, "after");
  const isKnown = (id: string): boolean => before.monitors.some((one) => one.id === id);
  const others = after.monitors.filter(({ id }) => !isKnown(id) && measured(after, id).length > 0);
  const role = before.monitors.find(({ id }) => id === ids.before)?.role;
  const likely = others.find((one) => one.role === role) ?? others[0];
  if (!likely || after.monitors.some(({ id }) => id === ids.after)) return because;
  return `${because}; if it is the same under another name: --monitor ${ids.before} --against ${likely.id}`;
}

function pairMonitor(old: Side, now: Side, options: CompareOptions, unpaired: Unpaired[]): PairedMonitor {
  const all = measured(now.results, now.monitor.id);
  const taken = new Set<Measurement>();
  const measurements = measured(old.results, old.monitor.id).flatMap((before): MeasurementPair[] => {
    const after = all.find((one) => one.channel === before.channel && one.position === before.position);
    const apart = after ? statedApart(old.results, now.results, before.position) : 0;
    const because = whyNot(before, after, apart);
    if (after) taken.add(after);
    if (!after || because !== null) {
      unpaired.push({ what: "measurement", id: before.id, in: after ? "both" : "before", because: because! });
      return [];
    }
    return [{ before, after, sides: { before: old, after: now }, apartM: rmsApart(options.placementM, apart) }];
  });
  for (const after of all) {
    if (taken.has(after)) continue;
    unpaired.push({
      what: "measurement",
      id: after.id,
      in: "after",
      because: "before there is none of this channel and place",
    });
  }
  const mix = mixOf(old.results);
  const atMix = mix === mixOf(now.results) ? measurements.filter(({ before }) => before.position === mix) : [];
  return {
    monitor: { before: old, after: now, atMix, apartM: atMix[0]?.apartM ?? rmsApart(options.placementM, 0) },
    measurements,
  };
}

function mixOf({ session }: Results): string | null {
  return session.positions.find(({ kind }) => kind === "mix")?.id ?? null;
}

function whyNot(before: Measurement, after: Measurement | undefined, apartM: number): string | null {
  if (!after) return "after there is none of this channel and place";
  if (before.derived !== after.derived) return "one was recorded, the other computed from left and right";
  return apartM > ONE_PLACE_M ? `the place stands ${apartM.toFixed(2)} m from where it stood` : null;
}

/** Distance of a position from itself, as the two sessions state it; 0 where one does not. */
function statedApart(before: Results, after: Results, position: string): number {
  const [old, now] = [before, after].map(({ session }) => session.positions.find(({ id }) => id === position)?.xyzM);
  return old && now ? Math.hypot(...old.map((metres, axis) => metres - now[axis]!)) : 0;
}
