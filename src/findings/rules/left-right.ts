import { energyMeanDb } from "../../dsp/energy-mean.js";
import type { Finding, MonitorResult, Results } from "../../model.js";
import { expandedUncertainty, realDifference } from "../../standards/real-difference.js";
import { ENOUGH_PLACES, LEFT_RIGHT_ARRIVAL, LEFT_RIGHT_BAND, LEFT_RIGHT_LEVEL, ONE_PLACE_HZ } from "../limits.js";
import { aroundMix, runsOf, thirdOctaves, worstOf } from "../places.js";
import { stated } from "../stated.js";

/** Left against right of each pair: polarity, level, arrival, bands. */
export function leftRight(results: Results): Finding[] {
  return results.monitors.flatMap((monitor) => {
    if (!monitor.leftRight) return [];
    return [...polarity(monitor), ...level(monitor), ...arrival(monitor), ...bands(results, monitor)];
  });
}

function polarity({ id, leftRight: pair }: MonitorResult): Finding[] {
  if (!pair || pair.samePolarity) return [];
  const parts = { severity: "warning", topic: "mend", monitors: [id], channels: ["L", "R"] } satisfies Partial<Finding>;
  // A centre that cancels is heard by everybody.
  return [stated("left-right-polarity", { monitor: id }, { ...parts, audibility: 20 })];
}

function level({ id, leftRight: pair }: MonitorResult): Finding[] {
  if (!pair || pair.levelDb === null || pair.includesGain) return [];
  if (realDifference(pair.levelDb, [pair.levelUncertaintyDb], LEFT_RIGHT_LEVEL.value) !== "real") return [];
  const uncertaintyDb = expandedUncertainty([pair.levelUncertaintyDb]);
  return [
    stated(
      "left-right-level",
      { monitor: id, valueDb: pair.levelDb, uncertaintyDb },
      {
        severity: "warning",
        topic: "mend",
        value: pair.levelDb,
        uncertainty: uncertaintyDb,
        unit: "dB",
        limit: LEFT_RIGHT_LEVEL.value,
        source: LEFT_RIGHT_LEVEL.source,
        audibility: Math.abs(pair.levelDb) / LEFT_RIGHT_LEVEL.value,
        monitors: [id],
        channels: [pair.levelDb > 0 ? "L" : "R"],
      },
    ),
  ];
}

function arrival({ id, leftRight: pair }: MonitorResult): Finding[] {
  if (!pair || pair.arrivalS === null || pair.arrivalUncertaintyS === null) return [];
  if (realDifference(pair.arrivalS, [pair.arrivalUncertaintyS], LEFT_RIGHT_ARRIVAL.value) !== "real") return [];
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

/** Runs of third octaves in which one side is weaker than its level as a whole says. */
function bands(results: Results, monitor: MonitorResult): Finding[] {
  const pair = monitor.leftRight;
  if (!pair) return [];
  const offsetDb = pair.levelDb ?? 0;
  const differences = judged(results, monitor).map((band) => ({ ...band, differenceDb: band.differenceDb - offsetDb }));
  const over = ({ differenceDb, uncertaintyDb, limitDb }: BandDifference): boolean =>
    realDifference(differenceDb, [uncertaintyDb], limitDb) === "real";
  return [1, -1].flatMap((sign) =>
    runsOf(differences, (band) => over(band) && Math.sign(band.differenceDb) === sign).map((run) => {
      const worst = worstOf(run, ({ differenceDb }) => Math.abs(differenceDb));
      const uncertaintyDb = expandedUncertainty([worst.uncertaintyDb]);
      const rangeHz: [number, number] = [run[0]!.nominalHz, run.at(-1)!.nominalHz];
      const facts = {
        monitor: monitor.id,
        valueDb: worst.differenceDb,
        uncertaintyDb,
        rangeHz,
        bandHz: worst.nominalHz,
      };
      return stated("left-right-bands", facts, {
        severity: "warning",
        topic: "mend",
        value: worst.differenceDb,
        uncertainty: uncertaintyDb,
        unit: "dB",
        limit: worst.limitDb,
        source: worst.source,
        // Between the ears a band is noticed as a whole level is.
        audibility: Math.abs(worst.differenceDb) / worst.limitDb,
        bandHz: worst.nominalHz,
        rangeHz,
        monitors: [monitor.id],
        channels: [sign > 0 ? "R" : "L"],
      });
    }),
  );
}

/** The bands that can be judged, each with its limit: above 2 kHz only as means over several places. */
function judged(results: Results, monitor: MonitorResult): BandDifference[] {
  const { middle, outside } = LEFT_RIGHT_BAND;
  const reachHz = monitor.extension?.minus6Hz ?? outside.rangeHz[0];
  return (monitor.leftRight?.bands ?? []).flatMap(({ nominalHz, differenceDb, uncertaintyDb }) => {
    if (nominalHz < Math.max(reachHz, outside.rangeHz[0]) || nominalHz > outside.rangeHz[1]) return [];
    const high = nominalHz > ONE_PLACE_HZ;
    const value = high ? overPlaces(results, monitor.id, nominalHz) : differenceDb;
    if (value === null) return [];
    const limit = nominalHz >= middle.rangeHz[0] && nominalHz <= middle.rangeHz[1] ? middle : outside;
    return [{ nominalHz, differenceDb: value, uncertaintyDb, limitDb: limit.value, source: limit.source }];
  });
}

/** Left minus right of the energy means over places; null with too few of them. */
function overPlaces(results: Results, monitor: string, nominalHz: number): number | null {
  const own = aroundMix(results, monitor);
  const [left, right] = (["L", "R"] as const).map((channel) => {
    const levels = own
      .filter((one) => one.channel === channel)
      .map((one) => thirdOctaves(one).find((band) => band.nominalHz === nominalHz)?.levelDb ?? null);
    return levels.length < ENOUGH_PLACES ? null : energyMeanDb(levels);
  });
  return left == null || right == null ? null : left - right;
}
