import type { DoubleSlopeResult, Finding, FlutterResult, Results, SurfaceDips } from "../../model.js";
import { FLUTTER } from "../../standards/flutter.js";
import { BOUNDARY_DIP } from "../limits.js";
import { mirroredSurface } from "../../words/surface-name.js";
import { stated } from "../stated.js";
import { worstOf } from "../places.js";

/** What walls that face each other, openings and near surfaces do. */
export function surfaces(results: Results): Finding[] {
  return [...flutter(results), ...doubleSlope(results), ...boundaryDips(results)];
}

function flutter(results: Results): Finding[] {
  const groups: FlutterResult[][] = [];
  for (const train of results.flutter ?? []) {
    const same = groups.find(([first]) => Math.abs(first!.distanceM - train.distanceM) < FLUTTER.sameWallsM);
    if (same) same.push(train);
    else groups.push([train]);
  }
  return groups.map((group) => {
    const worst = worstOf(group, ({ levelDb }) => levelDb);
    const ids = new Set(group.map(({ measurement }) => measurement));
    const monitors = results.monitors
      .map(({ id }) => id)
      .filter((id) => results.measurements.some((one) => one.monitor === id && ids.has(one.id)));
    return stated(
      "flutter",
      { ...worst, places: group.length },
      {
        ...{ severity: "warning", topic: "mend", value: worst.t60S, unit: "s", atS: worst.periodS, monitors },
        source:
          "echoes at equal intervals 6 dB over what lies between them, 6 dB or less lost on a round trip; choices of ours",
      },
    );
  });
}

function doubleSlope(results: Results): Finding[] {
  const slopes = results.doubleSlopes ?? [];
  if (slopes.length === 0) return [];
  const worst = worstOf(slopes, ({ lateS, earlyS }: DoubleSlopeResult) => lateS / earlyS);
  const rangeHz: [number, number] = [slopes[0]!.nominalHz, slopes.at(-1)!.nominalHz];
  return [
    stated(
      "double-slope",
      { ...worst, rangeHz, hasFlutter: (results.flutter ?? []).length > 0 },
      {
        ...{
          severity: "warning",
          topic: "mend",
          value: worst.lateS,
          uncertainty: 2 * worst.lateUncertaintyS,
          unit: "s",
        },
        ...{
          rangeHz,
          source: "late decay 2.5 times as long as the early one in two octaves side by side; choices of ours",
        },
      },
    ),
  ];
}

interface FittingDip {
  readonly channel: "L" | "R";
  readonly dip: SurfaceDips["measured"][number];
  readonly predicted: SurfaceDips["predicted"][number];
  /** Whether no other predicted dip fits better. */
  readonly isNearest: boolean;
}

/** Of each monitor the deepest dip that a near surface may have made; with the other side's where that has its mirror image. */
function boundaryDips(results: Results): Finding[] {
  return results.monitors.flatMap(({ id }) => {
    const fitting = fittingDips(id, results);
    const told = fitting.filter(
      ({ dip, isNearest }) => isNearest && dip.depthDb >= BOUNDARY_DIP.value && dip.byChance <= MOST_BY_CHANCE,
    );
    if (told.length === 0) return [];
    const deepest = worstOf(told, ({ dip }) => dip.depthDb);
    const mirror = fitting.find((one) => isMirror(one, deepest));
    const alike = [deepest, ...(mirror ? [mirror] : [])];
    const channels = (["L", "R"] as const).filter((side) => alike.some(({ channel }) => channel === side));
    const { dip, predicted } = deepest;
    return [
      stated(
        "boundary-dip",
        {
          ...{ monitor: id, channels, depthDb: dip.depthDb, frequencyHz: dip.frequencyHz, moves: dip.moves },
          surfaces: [...new Set(alike.map((one) => one.predicted.surface))],
          predictedHz: predicted.frequencyHz,
          uncertaintyHz: 2 * predicted.frequencyUncertaintyHz,
          byChance: dip.byChance,
          isLopsided: !mirror && dip.otherSide !== null,
        },
        {
          ...{ severity: "info", topic: "mend", value: dip.depthDb, unit: "dB", limit: BOUNDARY_DIP.value },
          ...{ source: BOUNDARY_DIP.source, bandHz: dip.frequencyHz, monitors: [id], channels },
        },
      ),
    ];
  });
}

/** Every first dip of a surface that a measured one fits, once for each surface. */
function fittingDips(monitor: string, results: Results): FittingDip[] {
  return results.measurements.flatMap((measurement) => {
    const { channel } = measurement;
    if (measurement.monitor !== monitor || channel === "both") return [];
    const dips = results.surfaces?.measurements.find((one) => one.id === measurement.id)?.dips;
    return (dips?.measured ?? []).flatMap((dip) =>
      dip.fitting.flatMap((index, rank): FittingDip[] => {
        const predicted = dips!.predicted[index];
        return predicted?.order === 1 ? [{ channel, dip, predicted, isNearest: rank === 0 }] : [];
      }),
    );
  });
}

/**
 * Whether the other side has the same dip by the surface opposite. How sure a fit is does not count here: two sides that show the
 * same at mirrored surfaces are one matter, and moved one by one they would no longer be a pair.
 */
function isMirror(one: FittingDip, other: FittingDip): boolean {
  return (
    one.channel !== other.channel &&
    one.predicted.surface === mirroredSurface(other.predicted.surface) &&
    Math.abs(Math.log2(one.dip.frequencyHz / other.dip.frequencyHz)) < 1 / 12
  );
}

/** Where so much of the range would fit by accident a fit is worth nothing: a choice of ours. */
const MOST_BY_CHANCE = 0.3;
