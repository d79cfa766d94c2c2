import type { Finding, MonitorResult, Results } from "../../model.js";
import { expandedUncertainty, overLimit } from "../../standards/real-difference.js";
import { LEFT_RIGHT_ARRIVAL, LEFT_RIGHT_BAND, LEFT_RIGHT_LEVEL, ONE_PLACE_HZ } from "../limits.js";
import { levelAround, runsOf, worstOf } from "../places.js";
import { isMixedOn } from "../../schema/mixed-on.js";
import { reachOf } from "../reach.js";
import { stated } from "../stated.js";

/** Left against right of each pair: level, arrival, bands. Polarity is told by the recordings. */
export function leftRight(results: Results): Finding[] {
  return results.monitors.flatMap((monitor) => {
    if (!monitor.leftRight) return [];
    const level = levelOf(monitor);
    return [...level, ...arrival(monitor), ...bands(results, monitor, level.length > 0)];
  });
}

/** A side is louder as a whole only where most of its bands are: one strong band moves the energy mean as well. */
function levelOf({ id, leftRight: pair }: MonitorResult): Finding[] {
  if (!pair || pair.includesGain) return [];
  const middleDb = medianDb(pair.bands);
  if (pair.levelDb === null || middleDb === null) return [];
  const least = Math.min(Math.abs(middleDb), Math.abs(pair.levelDb));
  if (overLimit(least, LEFT_RIGHT_LEVEL.value, pair.levelUncertaintyDb) !== "over") return [];
  const uncertaintyDb = expandedUncertainty([pair.levelUncertaintyDb]);
  return [
    stated(
      "left-right-level",
      { monitor: id, valueDb: middleDb, uncertaintyDb },
      {
        severity: "warning",
        topic: "mend",
        value: middleDb,
        uncertainty: uncertaintyDb,
        unit: "dB",
        limit: LEFT_RIGHT_LEVEL.value,
        source: LEFT_RIGHT_LEVEL.source,
        audibility: Math.abs(middleDb) / LEFT_RIGHT_LEVEL.value,
        monitors: [id],
        channels: [middleDb > 0 ? "L" : "R"],
      },
    ),
  ];
}

const MIDDLE_HZ = [200, 4000] as const;

function medianDb(all: readonly { nominalHz: number; differenceDb: number | null }[]): number | null {
  const sorted = all
    .filter(({ nominalHz }) => nominalHz >= MIDDLE_HZ[0] && nominalHz <= MIDDLE_HZ[1])
    .flatMap(({ differenceDb }) => differenceDb ?? [])
    .sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? null;
}

function arrival({ id, leftRight: pair }: MonitorResult): Finding[] {
  if (!pair || pair.arrivalS === null || pair.arrivalUncertaintyS === null) return [];
  if (overLimit(Math.abs(pair.arrivalS), LEFT_RIGHT_ARRIVAL.value, pair.arrivalUncertaintyS) !== "over") return [];
  const uncertaintyS = 2 * pair.arrivalUncertaintyS;
  return [
    stated(
      "left-right-arrival",
      { monitor: id, differenceS: pair.arrivalS, uncertaintyS },
      {
        severity: "warning",
        topic: "mend",
        value: pair.arrivalS,
        uncertainty: uncertaintyS,
        unit: "s",
        limit: LEFT_RIGHT_ARRIVAL.value,
        source: LEFT_RIGHT_ARRIVAL.source,
        audibility: Math.abs(pair.arrivalS) / LEFT_RIGHT_ARRIVAL.value,
        monitors: [id],
        channels: [pair.arrivalS > 0 ? "L" : "R"],
      },
    ),
  ];
}

interface BandDifference {
  readonly nominalHz: number;
  readonly differenceDb: number;
  readonly uncertaintyDb: number | null;
  readonly limitDb: number;
  readonly source: string;
}

/**
 * Runs of third octaves in which one side is weaker. Where the side is told to be louder as a whole, or gain may be in the
 * difference, only what goes beyond the middle counts.
 */
function bands(results: Results, monitor: MonitorResult, levelIsTold: boolean): Finding[] {
  const pair = monitor.leftRight;
  if (!pair) return [];
  const beyond = levelIsTold || pair.includesGain;
  const offsetDb = beyond ? (medianDb(pair.bands) ?? 0) : 0;
  const differences = judged(results, monitor).map((band) => ({ ...band, differenceDb: band.differenceDb - offsetDb }));
  const verdict = ({ differenceDb, uncertaintyDb, limitDb }: BandDifference): string =>
    overLimit(Math.abs(differenceDb), limitDb, uncertaintyDb);
  return [1, -1].flatMap((sign) => {
    const runs = runsOf(differences, (band) => verdict(band) !== "within" && Math.sign(band.differenceDb) === sign);
    return runs.map((run) => {
      const sure = run.filter((band) => verdict(band) === "over");
      const worst = worstOf(sure.length > 0 ? sure : run, ({ differenceDb }) => Math.abs(differenceDb));
      const uncertaintyDb = expandedUncertainty([worst.uncertaintyDb]);
      const rangeHz: [number, number] = [run[0]!.nominalHz, run.at(-1)!.nominalHz];
      const size = {
        monitor: monitor.id,
        valueDb: worst.differenceDb,
        uncertaintyDb,
        rangeHz,
        bandHz: worst.nominalHz,
      };
      const parts = {
        value: worst.differenceDb,
        uncertainty: uncertaintyDb,
        unit: "dB",
        limit: worst.limitDb,
        source: worst.source,
        bandHz: worst.nominalHz,
        rangeHz,
        monitors: [monitor.id],
        channels: [sign > 0 ? ("R" as const) : ("L" as const)],
      };
      if (sure.length === 0) {
        const facts = { ...size, what: `the difference of left and right of ${monitor.id}`, limitDb: worst.limitDb };
        return stated("cannot-tell", facts, { ...parts, severity: "info", topic: "unknown" });
      }
      // Between the ears a band is noticed as a whole level is.
      const audibility = Math.abs(worst.differenceDb) / worst.limitDb;
      return stated(
        "left-right-bands",
        { ...size, beyond },
        { ...parts, severity: "warning", topic: "mend", audibility },
      );
    });
  });
}

/** The bands that can be judged, each with its limit: above 2 kHz only as means over several places. */
function judged(results: Results, monitor: MonitorResult): BandDifference[] {
  const { middle, outside } = LEFT_RIGHT_BAND;
  const fromHz = Math.max(reachOf(monitor)?.minus6Hz ?? 0, outside.rangeHz[0]);
  // A phone's or a car's own ends are no mismatch.
  const toHz = isMixedOn(monitor) ? outside.rangeHz[1] : middle.rangeHz[1];
  return (monitor.leftRight?.bands ?? []).flatMap((band) => {
    const { nominalHz } = band;
    if (nominalHz < fromHz || nominalHz > toHz) return [];
    const difference = nominalHz > ONE_PLACE_HZ ? overPlaces(results, monitor.id, nominalHz) : band;
    if (difference?.differenceDb == null) return [];
    const { differenceDb, uncertaintyDb } = difference;
    const limit = nominalHz >= middle.rangeHz[0] && nominalHz <= middle.rangeHz[1] ? middle : outside;
    return [{ nominalHz, differenceDb, uncertaintyDb, limitDb: limit.value, source: limit.source }];
  });
}

/** Left minus right of the energy means over places; null with too few of them. */
function overPlaces(
  results: Results,
  monitor: string,
  nominalHz: number,
): { differenceDb: number; uncertaintyDb: number } | null {
  const left = levelAround(results, monitor, nominalHz, ["L"]);
  const right = levelAround(results, monitor, nominalHz, ["R"]);
  if (!left || !right) return null;
  return {
    differenceDb: left.levelDb - right.levelDb,
    uncertaintyDb: Math.hypot(left.uncertaintyDb, right.uncertaintyDb),
  };
}
