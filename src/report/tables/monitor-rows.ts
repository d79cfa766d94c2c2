import type { MonitorResult } from "../../model.js";
import type { CsvCell } from "../csv.js";

/** Rows about monitors as pairs of loudspeakers. */

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
  "leftRightLevelUncertaintyDb",
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
    ...[leftRight?.levelDb ?? null, leftRight?.levelUncertaintyDb ?? null],
    ...[leftRight?.arrivalS ?? null, leftRight?.arrivalUncertaintyS ?? null],
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

export const leftRightColumns = ["monitor", "nominalHz", "differenceDb", "uncertaintyDb"];

export function leftRightRows({ id, leftRight }: MonitorResult): Row[] {
  return (leftRight?.bands ?? []).map((band) => [id, band.nominalHz, band.differenceDb, band.uncertaintyDb]);
}

export const oneSidedColumns = ["monitor", "channel", "delayS", "levelDb", "levelUncertaintyDb", "otherLevelDb"];

export function oneSidedRows({ id, leftRight }: MonitorResult): Row[] {
  return (leftRight?.oneSided ?? []).map((one) => [
    id,
    ...[one.channel, one.delayS, one.levelDb, one.levelUncertaintyDb, one.otherLevelDb],
  ]);
}

export const phantomColumns = ["monitor", "nominalHz", "againstLeftDb", "againstRightDb", "uncertaintyDb"];

export function phantomRows({ id, leftRight }: MonitorResult): Row[] {
  return (leftRight?.phantom ?? []).map((band) => [
    id,
    ...[band.nominalHz, band.againstLeftDb, band.againstRightDb, band.uncertaintyDb],
  ]);
}

export const targetColumns = [
  "monitor",
  "target",
  "advisory",
  "offsetDb",
  "nominalHz",
  "targetDb",
  "deviationDb",
  "uncertaintyDb",
  "lowerDb",
  "upperDb",
];

export function targetRows({ id, target }: MonitorResult): Row[] {
  return (target?.bands ?? []).map((band) => [
    ...[id, target!.id, target!.advisory, target!.offsetDb, band.nominalHz, band.targetDb],
    ...[band.deviationDb, band.uncertaintyDb, band.lowerDb, band.upperDb],
  ]);
}

const checkKeys = [
  "code",
  "channel",
  "bandHz",
  "value",
  "unit",
  "limit",
  "pass",
  "advisory",
  "reason",
  "source",
] as const;
export const checkColumns = ["monitor", ...checkKeys];

export function checkRows({ id, checks }: MonitorResult): Row[] {
  return checks.map((check) => [id, ...checkKeys.map((key) => check[key])]);
}

export const placeColumns = ["monitor", "nominalHz", "levelDb", "spreadDb", "roomUncertaintyDb"];

export function placeRows({ id, positions }: MonitorResult): Row[] {
  return (positions?.bands ?? []).map((band) => [
    id,
    ...[band.nominalHz, band.levelDb, band.spreadDb, band.roomUncertaintyDb],
  ]);
}

export const placeDecayColumns = ["monitor", "nominalHz", "timeS", "spreadS", "roomUncertaintyS"];

export function placeDecayRows({ id, positions }: MonitorResult): Row[] {
  return (positions?.decay ?? []).map((band) => [
    id,
    ...[band.nominalHz, band.timeS, band.spreadS, band.roomUncertaintyS],
  ]);
}
