import type { Results } from "../model.js";
import { csv, type CsvCell } from "./csv.js";
import { findingColumns, findingRows } from "./tables/finding-rows.js";
import { identify, identity, measurementTables } from "./tables/measurement-rows.js";
import * as against from "./tables/comparison-rows.js";
import * as modes from "./tables/mode-rows.js";
import * as pair from "./tables/monitor-rows.js";
import * as surface from "./tables/surface-rows.js";
import * as treatment from "./tables/treatment-rows.js";

export interface ResultTable {
  /** File name. */
  readonly name: string;
  readonly csv: string;
}

/** The results as tables for other programs: full precision, units in the heads of the columns, an empty cell for null. */
export function resultTables(results: Results): ResultTable[] {
  const { measurements, monitors, comparisons, provenance } = results;
  const { files } = provenance;
  return [
    ...measurementTables.map(({ name, columns, rows }) =>
      file(
        name,
        [...identity, ...columns],
        measurements.flatMap((one) => rows(one).map((row) => [...identify(one), ...row])),
      ),
    ),
    file("room-modes", modes.measuredColumns, modes.measuredRows(results)),
    file("predicted-modes", modes.predictedColumns, modes.predictedRows(results)),
    file("ring-maps", modes.ringMapColumns, modes.ringMapRows(results)),
    file("findings", findingColumns, findingRows(results)),
    file("monitors", pair.monitorColumns, monitors.map(pair.monitorRow)),
    file("monitor-response", pair.responseColumns, monitors.flatMap(pair.responseRows)),
    file("left-right", pair.leftRightColumns, monitors.flatMap(pair.leftRightRows)),
    file("one-sided-reflections", pair.oneSidedColumns, monitors.flatMap(pair.oneSidedRows)),
    file("phantom-centre", pair.phantomColumns, monitors.flatMap(pair.phantomRows)),
    file("targets", pair.targetColumns, monitors.flatMap(pair.targetRows)),
    file("checks", pair.checkColumns, monitors.flatMap(pair.checkRows)),
    file("places", pair.placeColumns, monitors.flatMap(pair.placeRows)),
    file("places-decay", pair.placeDecayColumns, monitors.flatMap(pair.placeDecayRows)),
    file("surface-paths", surface.pathColumns, surface.pathRows(results)),
    file("reflection-origins", surface.originColumns, surface.originRows(results)),
    file("surface-dips", surface.dipColumns, surface.dipRows(results)),
    file("flutter", surface.flutterColumns, surface.flutterRows(results)),
    file("double-slopes", surface.slopeColumns, surface.slopeRows(results)),
    file("treatment", treatment.gainColumns, treatment.gainRows(results)),
    file("absorber-depths", treatment.depthColumns, treatment.depthRows(results)),
    file("comparisons", against.pairColumns, comparisons.map(against.pairRow)),
    file("comparison-bands", against.bandColumns, comparisons.flatMap(against.bandRows)),
    file("comparison-decay", against.decayColumns, comparisons.flatMap(against.decayRows)),
    file("comparison-shows", against.showColumns, comparisons.flatMap(against.showRows)),
    file(
      "files",
      fileColumns,
      files.map((entry) => fileColumns.map((column) => entry[column])),
    ),
  ];
}

const fileColumns = ["file", "use", "sha256", "bytes", "sampleRate", "channels", "durationS", "encoding"] as const;

function file(name: string, columns: readonly string[], rows: readonly (readonly CsvCell[])[]): ResultTable {
  return { name: `${name}.csv`, csv: csv(columns, rows) };
}
