import type { Results } from "../../model.js";
import type { CsvCell } from "../csv.js";

/** Rows about pairs of monitors. */

type Row = readonly CsvCell[];
type Comparison = Results["comparisons"][number];

export const pairColumns = [
  "a",
  "b",
  "levelOffsetDb",
  "levelUncertaintyDb",
  "includesGain",
  "extensionAHz",
  "extensionBHz",
  "gapOctaves",
  "arrivalS",
  "arrivalReason",
];

export function pairRow({ a, b, extension, ...pair }: Comparison): Row {
  return [
    ...[a, b, pair.levelOffsetDb, pair.levelUncertaintyDb, pair.includesGain],
    ...[extension.aHz, extension.bHz, extension.gapOctaves, pair.arrivalS, pair.arrivalReason],
  ];
}

export const bandColumns = ["a", "b", "over", "nominalHz", "differenceDb", "uncertaintyDb"];

/** At the mix position, then of the means over places with the uncertainty in the room; the level offset is contained. */
export function bandRows({ a, b, bands, roomBands }: Comparison): Row[] {
  const sources = [
    { over: "mix", of: bands },
    { over: "positions", of: roomBands ?? [] },
  ];
  return sources.flatMap(({ over, of }) =>
    of.map((band): Row => [a, b, over, band.nominalHz, band.differenceDb, band.uncertaintyDb]),
  );
}

const decayKeys = ["nominalHz", "aS", "bS", "differenceS", "uncertaintyS"] as const;
export const decayColumns = ["a", "b", ...decayKeys];

export function decayRows({ a, b, decay }: Comparison): Row[] {
  return decay.map((band) => [a, b, ...decayKeys.map((key) => band[key])]);
}

const showKeys = ["monitor", "other", "kind", "fromHz", "toHz", "differenceDb", "uncertaintyDb"] as const;
export const showColumns: readonly string[] = showKeys;

export function showRows({ shows }: Comparison): Row[] {
  return shows.map((one) => showKeys.map((key) => one[key]));
}
