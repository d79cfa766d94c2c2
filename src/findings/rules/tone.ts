import type { Finding, MonitorResult, Results } from "../../model.js";
import { audiblePeakDb } from "../../standards/audible-deviation.js";
import { expandedUncertainty, overLimit } from "../../standards/real-difference.js";
import { DIP_FACTOR, ONE_PLACE_HZ, WIDE_DIP_BANDS } from "../limits.js";
import { levelAround, runsOf, worstOf } from "../places.js";
import { isMixedOn } from "../../schema/mixed-on.js";
import { reachOf } from "../reach.js";
import { stated } from "../stated.js";

/** One third octave of a monitor against its target. */
interface Deviation {
  readonly nominalHz: number;
  readonly deviationDb: number;
  readonly uncertaintyDb: number | null;
  readonly lowerDb: number | null;
  readonly upperDb: number | null;
}

/** What sticks out of the target's limits. */
export function tone(results: Results): Finding[] {
  return results.monitors.filter(isMixedOn).flatMap((monitor) => {
    const bands = judged(results, monitor);
    return [...peaks(monitor, bands), ...dips(monitor, bands)];
  });
}

/** Less than two octaves is no range to lean on. */
const LEAST_BELIEVABLE_BANDS = 6;

/** The longest stretch of each monitor in which nothing is to be mended. */
export function believable(results: Results, mended: readonly Finding[]): Finding[] {
  return results.monitors.filter(isMixedOn).flatMap((monitor) => {
    const own = mended.filter(({ monitors }) => monitors.includes(monitor.id));
    // A pair out of step has no tone to be believed.
    if (own.some(({ code, channels }) => code === "polarity-inverted" && channels.length > 0)) return [];
    const bands = judged(results, monitor);
    const clear = ({ nominalHz, deviationDb, lowerDb, upperDb }: Deviation): boolean =>
      deviationDb >= (lowerDb ?? -Infinity) &&
      deviationDb <= (upperDb ?? Infinity) &&
      !own.some(({ rangeHz }) => rangeHz !== null && nominalHz >= rangeHz[0] && nominalHz <= rangeHz[1]);
    const runs = runsOf(bands, clear);
    const longest = runs.length > 0 ? worstOf(runs, (run) => run.length) : [];
    if (longest.length < LEAST_BELIEVABLE_BANDS) return [];
    const rangeHz: [number, number] = [longest[0]!.nominalHz, longest.at(-1)!.nominalHz];
    const worst = worstOf(longest, ({ deviationDb }) => Math.abs(deviationDb));
    const sizeDb = Math.abs(worst.deviationDb);
    const sidesAgree =
      monitor.leftRight !== null &&
      !own.some(({ code }) => code === "left-right-level" || code === "left-right-arrival") &&
      monitor.leftRight.bands.every(
        ({ nominalHz, uncertaintyDb }) => nominalHz < rangeHz[0] || nominalHz > rangeHz[1] || uncertaintyDb !== null,
      );
    const reflects = own.some(({ code }) => code === "early-reflection");
    const facts = { monitor: monitor.id, rangeHz, sizeDb, target: monitor.target!.id, sidesAgree, reflects };
    return [
      stated("believable-range", facts, {
        severity: "info",
        topic: "trust",
        value: sizeDb,
        uncertainty: expandedUncertainty([worst.uncertaintyDb]),
        unit: "dB",
        source: monitor.target!.source,
        audibility: longest.length / bands.length,
        rangeHz,
        monitors: [monitor.id],
      }),
    ];
  });
}

/**
 * The bands of a monitor that have limits and can be judged: from its end up; above 2 kHz as the mean over places around, if
 * there are enough.
 */
function judged(results: Results, monitor: MonitorResult): Deviation[] {
  const { target } = monitor;
  if (!target || target.offsetDb === null) return [];
  const { offsetDb } = target;
  const fromHz = reachOf(monitor)?.toneFromHz ?? 0;
  return target.bands.flatMap(({ nominalHz, targetDb, deviationDb, uncertaintyDb, lowerDb, upperDb }) => {
    if (nominalHz < fromHz || (lowerDb === null && upperDb === null)) return [];
    if (nominalHz <= ONE_PLACE_HZ) {
      return deviationDb === null ? [] : [{ nominalHz, deviationDb, uncertaintyDb, lowerDb, upperDb }];
    }
    const sides = monitor.channels.filter((channel) => channel !== "both");
    const around = levelAround(results, monitor.id, nominalHz, sides.length > 0 ? sides : ["both"]);
    if (!around || targetDb === null) return [];
    const meanDb = around.levelDb - targetDb - offsetDb;
    return [{ nominalHz, deviationDb: meanDb, uncertaintyDb: around.uncertaintyDb, lowerDb, upperDb }];
  });
}

function peaks(monitor: MonitorResult, bands: readonly Deviation[]): Finding[] {
  const loud = ({ deviationDb, upperDb }: Deviation): boolean => upperDb !== null && deviationDb > upperDb;
  const isSure = ({ deviationDb, uncertaintyDb, upperDb }: Deviation): boolean =>
    overLimit(deviationDb, upperDb!, uncertaintyDb) === "over";
  return runsOf(bands, loud).map((run) => told("peak", monitor, run, isSure, (band) => band.upperDb!));
}

/** A dip counts when it is wide, or when it is twice as deep as the limit. */
function dips(monitor: MonitorResult, bands: readonly Deviation[]): Finding[] {
  const soft = ({ deviationDb, lowerDb }: Deviation): boolean => lowerDb !== null && deviationDb < lowerDb;
  return runsOf(bands, soft).flatMap((run) => {
    const factor = run.length >= WIDE_DIP_BANDS ? 1 : DIP_FACTOR.value;
    const isSure = ({ deviationDb, uncertaintyDb, lowerDb }: Deviation): boolean =>
      overLimit(-deviationDb, -factor * lowerDb!, uncertaintyDb) === "over";
    if (!run.some(({ deviationDb, lowerDb }) => deviationDb < factor * lowerDb!)) return [];
    return [told("dip", monitor, run, isSure, (band) => factor * band.lowerDb!)];
  });
}

function told(
  code: "peak" | "dip",
  monitor: MonitorResult,
  run: readonly Deviation[],
  isSure: (band: Deviation) => boolean,
  limitOf: (band: Deviation) => number,
): Finding {
  const sure = run.filter(isSure);
  const worst = worstOf(sure.length > 0 ? sure : run, ({ deviationDb }) => Math.abs(deviationDb));
  const uncertaintyDb = expandedUncertainty([worst.uncertaintyDb]);
  const rangeHz: [number, number] = [run[0]!.nominalHz, run.at(-1)!.nominalHz];
  const target = monitor.target!;
  const size = { monitor: monitor.id, valueDb: worst.deviationDb, uncertaintyDb, rangeHz, bandHz: worst.nominalHz };
  const parts = {
    value: worst.deviationDb,
    uncertainty: uncertaintyDb,
    unit: "dB",
    limit: limitOf(worst),
    source: target.source,
    bandHz: worst.nominalHz,
    rangeHz,
    monitors: [monitor.id],
  };
  if (sure.length === 0) {
    const what = `the level of ${monitor.id} re its target`;
    const facts = { ...size, what, limitDb: Math.abs(limitOf(worst)) };
    return stated("cannot-tell", facts, { ...parts, severity: "info", topic: "unknown" });
  }
  const heardDb = audiblePeakDb(run.length) * (code === "dip" ? DIP_FACTOR.value : 1);
  const audibility = Math.abs(worst.deviationDb) / heardDb;
  // Limits of one's own may be narrower than what anybody hears.
  const severity = audibility < 1 ? "info" : "warning";
  return stated(code, { ...size, target: target.id }, { ...parts, severity, topic: "mend", audibility });
}
