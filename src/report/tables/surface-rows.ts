import type { Results } from "../../model.js";
import type { CsvCell } from "../csv.js";

/** Rows about what the room's surfaces do. */

type Row = readonly CsvCell[];

const measurementsOf = ({ surfaces }: Results): NonNullable<Results["surfaces"]>["measurements"] =>
  surfaces?.measurements ?? [];

export const pathColumns = [
  ...["measurement", "reason", "surface", "detourM", "detourUncertaintyM", "delayS", "xM", "yM", "zM"],
  ...["azimuthDeg", "elevationDeg", "blockedBy"],
];

export function pathRows(results: Results): Row[] {
  return measurementsOf(results).flatMap(({ id, reason, paths }) =>
    reason !== null
      ? [[id, reason, ...pathColumns.slice(2).map(() => null)]]
      : paths.map((path) => [
          ...[id, null, path.surface, path.detourM, path.detourUncertaintyM, path.delayS, ...path.pointM],
          ...[path.azimuthDeg, path.elevationDeg, path.blockedBy.join("; ")],
        ]),
  );
}

export const originColumns = ["measurement", "number", "surfaces", "confidence", "offM"];

/** `number` is that of the reflection in reflections.csv. */
export function originRows(results: Results): Row[] {
  return measurementsOf(results).flatMap(({ id, origins }) =>
    origins.map(({ reflection, surfaces, confidence, offM }) => [
      ...[id, reflection + 1, surfaces.join("; "), confidence, offM],
    ]),
  );
}

export const dipColumns = [
  ...[
    "measurement",
    "frequencyHz",
    "depthDb",
    "otherSide",
    "surfaces",
    "predictedHz",
    "byChance",
    "movesM",
    "movesToHz",
    "movesToUncertaintyHz",
  ],
];

export function dipRows(results: Results): Row[] {
  return measurementsOf(results).flatMap(({ id, dips }) =>
    (dips?.measured ?? []).map((dip) => {
      const fitting = dip.fitting.map((index) => dips!.predicted[index]!);
      return [
        ...[id, dip.frequencyHz, dip.depthDb, dip.otherSide, fitting.map(({ surface }) => surface).join("; ")],
        ...[fitting[0]?.frequencyHz ?? null, dip.byChance, dip.moves.map(({ awayM }) => awayM).join("; ")],
        dip.moves.map(({ toHz }) => toHz).join("; "),
        dip.moves.map(({ toUncertaintyHz }) => toUncertaintyHz ?? "").join("; "),
      ];
    }),
  );
}

export const flutterColumns = [
  ...["measurement", "between", "distanceM", "distanceUncertaintyM", "periodS", "levelDb", "aboveDb", "t60S"],
  ...["roundTripDb", "echoes"],
];

export function flutterRows({ flutter = [] }: Results): Row[] {
  return flutter.map((train) => [
    ...[train.measurement, train.between.join("; "), train.distanceM, train.distanceUncertaintyM, train.periodS],
    ...[train.levelDb, train.aboveDb, train.t60S, train.roundTripDb, train.echoes],
  ]);
}

const slopeKeys = [
  ...(["nominalHz", "measurements", "earlyS", "earlyUncertaintyS", "lateS", "lateUncertaintyS"] as const),
  ...(["apartDb", "turnS", "turnDb"] as const),
];
export const slopeColumns: readonly string[] = slopeKeys;

export function slopeRows({ doubleSlopes = [] }: Results): Row[] {
  return doubleSlopes.map((slope) => slopeKeys.map((key) => slope[key]));
}
