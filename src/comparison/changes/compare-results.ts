import type { Results } from "../../model.js";
import type { ChangedQuantity, ChangePair, Changes, Compared } from "../../schema/changes.js";
import { type ChanceLimits, chanceLimits, MOST_CHANCE } from "./chance-limits.js";
import { conditions } from "./conditions.js";
import { judge, judgeable } from "./judge.js";
import { type CompareOptions, type PairedMonitor, pairUp } from "./pair-up.js";
import { justNoticeableList, OF_MEASUREMENTS, OF_MONITORS } from "./quantities.js";
import type { MeasurementPair, Reading } from "./reading.js";
import { trustChanges } from "./trust.js";

interface ReadPair {
  readonly pair: MeasurementPair;
  readonly readings: readonly Reading[];
}

interface ReadMonitor extends PairedMonitor {
  readonly readings: readonly Reading[];
  readonly pairs: readonly ReadPair[];
}

/**
 * Compares two sessions, or two monitors, quantity by quantity.
 *
 * @param before - the same object as `after` where two monitors of one session are compared
 */
export function compareResults(before: Results, after: Results, options: CompareOptions): Compared {
  const { monitors, unpaired } = pairUp(before, after, options);
  const read = monitors.map((one): ReadMonitor => ({
    ...one,
    readings: OF_MONITORS.flatMap((quantity) => quantity.of(one.monitor)),
    pairs: one.measurements.map((pair) => ({
      pair,
      readings: OF_MEASUREMENTS.flatMap((quantity) => quantity.of(pair)),
    })),
  }));
  const everything = read.flatMap(({ readings, pairs }) => [...readings, ...pairs.flatMap((one) => one.readings)]);
  const judged = everything.flatMap((reading) => judgeable(reading) ?? []);
  const limits = chanceLimits(judged);
  return {
    compares: options.monitors === null ? "sessions" : "monitors",
    before: sideOf(before, options.monitors?.before ?? null),
    after: sideOf(after, options.monitors?.after ?? null),
    mixPosition: before.session.positions.find(({ kind }) => kind === "mix")?.id ?? null,
    placementM: options.placementM,
    chance: {
      judged: judged.length,
      atMost: MOST_CHANCE,
      expected: limits.expected,
      sharpCoverage: limits.sharpCoverage,
      bluntCoverage: limits.bluntCoverage,
    },
    justNoticeable: justNoticeableList(),
    unpaired: [...unpaired, ...conditions(before, after, monitors)],
    pairs: read.flatMap((one) => judgeMonitor(one, limits)),
  };
}

function sideOf({ session, provenance }: Results, monitor: string | null): Changes["before"] {
  return {
    title: session.title ?? null,
    date: session.date ?? null,
    room: session.room?.name ?? null,
    notes: session.notes ?? null,
    monitor,
    version: provenance.version,
  };
}

/** The monitor first, then its measurements. */
function judgeMonitor({ monitor, readings, pairs }: ReadMonitor, limits: ChanceLimits): ChangePair[] {
  const measurements = pairs.map(({ pair, readings: own }): ChangePair => ({
    id: idOf(pair.before.id, pair.after.id),
    kind: "measurement",
    before: pair.before.id,
    after: pair.after.id,
    monitor: pair.before.monitor,
    channel: pair.before.channel,
    position: pair.before.position,
    derived: pair.before.derived,
    apartM: pair.apartM,
    quantities: own.map((reading) => judge(reading, limits)),
  }));
  const own = readings.map((reading) => judge(reading, limits));
  const atMix = new Set(monitor.atMix.map(({ before }) => before.id));
  const behind = [...own, ...measurements.filter((one) => atMix.has(one.before)).flatMap((one) => one.quantities)];
  const [before, after] = [monitor.before.monitor.id, monitor.after.monitor.id];
  const summary: ChangePair = {
    ...{ id: idOf(before, after), kind: "monitor", before, after, monitor: before },
    ...{ channel: null, position: null, derived: false, apartM: null },
    quantities: [...own, ...trustOf(monitor, behind)],
  };
  return [summary, ...measurements];
}

function trustOf({ before, after }: PairedMonitor["monitor"], behind: readonly ChangedQuantity[]): ChangedQuantity[] {
  const [old, now] = [before, after].map(
    ({ results, monitor }) => results.translation?.trust.find((one) => one.monitor === monitor.id)?.bands ?? [],
  );
  return trustChanges(old!, now!, behind);
}

function idOf(before: string, after: string): string {
  return before === after ? before : `${before} / ${after}`;
}
