import type { MonitorResult, Results } from "../../model.js";
import type { CsvCell } from "../csv.js";

/** Rows about monitors as pairs, and about pairs of monitors. */

type Row = readonly CsvCell[];

export const monitorColumns = [
  "monitor",
  "name",
  "role",
  "channels",
  "responseReason",
  "minus3Hz",
  "minus6Hz",
  "minus10Hz",
  "dipsHz",
  "extensionFlags",
  "leftRightLevelDb",
  "leftRightArrivalS",
  "leftRightArrivalUncertaintyS",
  "leftRightIncludesGain",
  "leftRightSamePolarity",
  "leftRightReason",
];

export function monitorRow({ id, name, role, channels, ...monitor }: MonitorResult): Row {
  const { extension, leftRight } = monitor;
  return [
    ...[id, name, role, channels.join("; "), monitor.responseReason],
    ...[extension?.minus3Hz ?? null, extension?.minus6Hz ?? null, extension?.minus10Hz ?? null],
    ...[extension?.dipsHz.join("; ") ?? null, extension?.flags.join("; ") ?? null],
    ...[leftRight?.levelDb ?? null, leftRight?.arrivalS ?? null, leftRight?.arrivalUncertaintyS ?? null],
    ...[leftRight?.includesGain ?? null, leftRight?.samePolarity ?? null, monitor.leftRightReason],
  ];
}

export const responseColumns = ["monitor", "over", "frequencyHz", "levelDb", "toneDb", "uncertaintyDb", "spreadDb"];

/** The pair's mean at the mix position, then its mean over positions with their spread. */
export function responseRows({ id, response, positions }: MonitorResult): Row[] {
  const sources = [
    { over: "mix", curves: response, spreadDb: [] },
    { over: "positions", curves: positions?.response ?? null, spreadDb: positions?.spreadDb ?? [] },
  ];
  return sources.flatMap(({ over, curves, spreadDb }) =>
    (curves?.frequencyHz ?? []).map((frequencyHz, index): Row => {
      const { levelDb, toneDb, uncertaintyDb } = curves!;
      const values = [levelDb, toneDb, uncertaintyDb, spreadDb].map((curve) => curve[index] ?? null);
      return [id, over, frequencyHz, ...values];
    }),
  );
}

export const leftRightColumns = ["monitor", "nominalHz", "differenceDb"];

export function leftRightRows({ id, leftRight }: MonitorResult): Row[] {
  return (leftRight?.bands ?? []).map((band) => [id, band.nominalHz, band.differenceDb]);
}

export const comparisonColumns = ["a", "b", "levelOffsetDb", "includesGain", "nominalHz", "differenceDb"];

export function comparisonRows({ a, b, levelOffsetDb, includesGain, bands }: Results["comparisons"][number]): Row[] {
  return bands.map((band) => [a, b, levelOffsetDb, includesGain, band.nominalHz, band.differenceDb]);
}
