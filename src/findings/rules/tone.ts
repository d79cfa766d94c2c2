import type { Finding, MonitorResult, Results } from "../../model.js";
import { expandedUncertainty, realDifference } from "../../standards/real-difference.js";
import { audiblePeakDb, DIP_FACTOR, ENOUGH_PLACES, ONE_PLACE_HZ, WIDE_DIP_BANDS } from "../limits.js";
import { runsOf, worstOf } from "../places.js";
import { stated } from "../stated.js";

/** One third octave of a monitor against its target. */
interface Deviation {
  readonly nominalHz: number;
  readonly deviationDb: number;
  readonly uncertaintyDb: number | null;
  readonly lowerDb: number | null;
  readonly upperDb: number | null;
}

/** What sticks out of the target's limits, and what can be believed. */
export function tone(results: Results): Finding[] {
  return results.monitors.flatMap((monitor) => {
    if (!monitor.target || monitor.target.offsetDb === null) return [];
    const bands = judged(monitor);
    return [...peaks(monitor, bands), ...dips(monitor, bands)];
  });
}

/** The longest stretch of each monitor in which nothing is to be mended. */
export function believable(results: Results, mended: readonly Finding[]): Finding[] {
  return results.monitors.flatMap((monitor) => {
    if (!monitor.target || monitor.target.offsetDb === null) return [];
    const bands = judged(monitor);
    const clear = ({ nominalHz, deviationDb, lowerDb, upperDb }: Deviation): boolean =>
      deviationDb >= (lowerDb ?? -Infinity) &&
      deviationDb <= (upperDb ?? Infinity) &&
      !mended.some(
        (one) => one.monitors.includes(monitor.id) && one.rangeHz !== null && within(nominalHz, one.rangeHz),
      );
    const runs = runsOf(bands, clear);
    const longest = runs.length > 0 ? worstOf(runs, (run) => run.length) : [];
    if (longest.length < LEAST_BELIEVABLE_BANDS) return [];
    const rangeHz: [number, number] = [longest[0]!.nominalHz, longest.at(-1)!.nominalHz];
    const toleranceDb = Math.max(...longest.map(({ deviationDb }) => Math.abs(deviationDb)));
    const parts = { value: toleranceDb, unit: "dB", audibility: longest.length / bands.length, rangeHz };
    return [
      stated(
        "believable-range",
        { monitor: monitor.id, rangeHz, toleranceDb, target: monitor.target.id },
        { severity: "info", topic: "trust", source: monitor.target.source, monitors: [monitor.id], ...parts },
      ),
    ];
  });
}

/** Less than two octaves is no range to lean on. */
const LEAST_BELIEVABLE_BANDS = 6;

function within(hz: number, [fromHz, toHz]: readonly [number, number]): boolean {
  return hz >= fromHz && hz <= toHz;
}

/**
 * The bands of a monitor that have limits and can be judged: from a third octave above its end up; above 2 kHz as the mean over
 * places, if there are enough.
 */
function judged(monitor: MonitorResult): Deviation[] {
  const { target, positions, extension } = monitor;
  if (!target || target.offsetDb === null) return [];
  const fromHz = (extension?.minus3Hz ?? extension?.minus6Hz ?? 0) * THIRD;
  const places = positions && positions.ids.length >= ENOUGH_PLACES ? positions : null;
  return target.bands.flatMap(({ nominalHz, targetDb, deviationDb, uncertaintyDb, lowerDb, upperDb }) => {
    if (nominalHz < fromHz || (lowerDb === null && upperDb === null)) return [];
    if (nominalHz <= ONE_PLACE_HZ) {
      return deviationDb === null ? [] : [{ nominalHz, deviationDb, uncertaintyDb, lowerDb, upperDb }];
    }
    const around = places?.bands.find((band) => band.nominalHz === nominalHz);
    if (around?.levelDb == null || targetDb === null) return [];
    const meanDb = around.levelDb - targetDb - target.offsetDb!;
    return [{ nominalHz, deviationDb: meanDb, uncertaintyDb: around.roomUncertaintyDb, lowerDb, upperDb }];
  });
}

const THIRD = 2 ** (1 / 3);

function peaks(monitor: MonitorResult, bands: readonly Deviation[]): Finding[] {
  const over = ({ deviationDb, uncertaintyDb, upperDb }: Deviation): boolean =>
    upperDb !== null && deviationDb > upperDb && realDifference(deviationDb, [uncertaintyDb], upperDb) === "real";
  return runsOf(bands, over).map((run) => told("peak", monitor, run, (band) => band.upperDb!));
}

/** A dip counts when it is wide, or when it is twice as deep as the limit. */
function dips(monitor: MonitorResult, bands: readonly Deviation[]): Finding[] {
  const under = ({ deviationDb, uncertaintyDb, lowerDb }: Deviation): boolean =>
    lowerDb !== null && deviationDb < lowerDb && realDifference(deviationDb, [uncertaintyDb], -lowerDb) === "real";
  return runsOf(bands, under)
    .filter(
      (run) => run.length >= WIDE_DIP_BANDS || run.some((band) => band.deviationDb < DIP_FACTOR.value * band.lowerDb!),
    )
    .map((run) => told("dip", monitor, run, (band) => band.lowerDb!));
}

function told(
  code: "peak" | "dip",
  monitor: MonitorResult,
  run: readonly Deviation[],
  limitOf: (band: Deviation) => number,
): Finding {
  const worst = worstOf(run, ({ deviationDb }) => Math.abs(deviationDb));
  const uncertaintyDb = expandedUncertainty([worst.uncertaintyDb]);
  const rangeHz: [number, number] = [run[0]!.nominalHz, run.at(-1)!.nominalHz];
  const target = monitor.target!;
  const heardDb = audiblePeakDb(run.length) * (code === "dip" ? DIP_FACTOR.value : 1);
  return stated(
    code,
    {
      monitor: monitor.id,
      valueDb: worst.deviationDb,
      uncertaintyDb,
      rangeHz,
      bandHz: worst.nominalHz,
      target: target.id,
    },
    {
      severity: "warning",
      topic: "mend",
      value: worst.deviationDb,
      uncertainty: uncertaintyDb,
      unit: "dB",
      limit: limitOf(worst),
      source: target.source,
      audibility: Math.abs(worst.deviationDb) / heardDb,
      bandHz: worst.nominalHz,
      rangeHz,
      monitors: [monitor.id],
    },
  );
}
