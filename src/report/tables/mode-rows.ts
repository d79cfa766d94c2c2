import type { Results } from "../../model.js";
import { modeName } from "../../words/mode-name.js";
import type { CsvCell } from "../csv.js";

export const measuredColumns = [
  "kind",
  "frequencyHz",
  "frequencyUncertaintyHz",
  "fromHz",
  "toHz",
  "t60S",
  "t60UncertaintyS",
  "unheardS",
  "levelDb",
  "audible",
  "places",
  "predicted",
];

export function measuredRows({ roomModes }: Results): CsvCell[][] {
  return (roomModes?.measured ?? []).map((mode) => [
    mode.kind,
    mode.frequencyHz,
    mode.frequencyUncertaintyHz,
    ...mode.rangeHz,
    mode.t60S,
    mode.t60UncertaintyS,
    mode.unheardS,
    mode.levelDb,
    mode.audible,
    mode.places.join(" "),
    mode.predicted.map((index) => modeName(roomModes!.predicted![index]!.order)).join("; "),
  ]);
}

export const predictedColumns = ["frequencyHz", "mode", "kind", "length", "width", "height", "spacingHz"];

export function predictedRows({ roomModes }: Results): CsvCell[][] {
  return (roomModes?.predicted ?? []).map(({ frequencyHz, order, kind, spacingHz }) => [
    frequencyHz,
    modeName(order),
    kind,
    ...order,
    spacingHz,
  ]);
}

export const ringMapColumns = ["monitor", "frequencyHz", "byDb", "timeS"];

export function ringMapRows({ roomModes }: Results): CsvCell[][] {
  return (roomModes?.ringMaps ?? []).flatMap(({ monitor, frequencyHz, falls }) =>
    falls.flatMap(({ byDb, timeS }) => timeS.map((value, k) => [monitor, frequencyHz[k]!, byDb, value])),
  );
}
