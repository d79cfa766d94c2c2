import type { Results } from "../../model.js";
import type { CsvCell } from "../csv.js";

/** Findings of every measurement and of the session, one row each. */

export const findingColumns = [
  "about",
  "code",
  "severity",
  "topic",
  "message",
  "remedy",
  "value",
  "expandedUncertainty",
  "unit",
  "limit",
  "source",
  "audibility",
  "atS",
  "bandHz",
  "rangeFromHz",
  "rangeToHz",
  "monitors",
  "channels",
  "recordings",
];

export function findingRows({ measurements, findings }: Results): (readonly CsvCell[])[] {
  const about = [
    ...measurements.map(({ id, quality }) => ({ about: id, findings: quality.findings })),
    { about: "session", findings },
  ];
  return about.flatMap(({ about, findings }) =>
    findings.map((f) => [
      about,
      ...[f.code, f.severity, f.topic, f.message, f.remedy, f.value, f.uncertainty, f.unit, f.limit],
      ...[f.source, f.audibility, f.atS, f.bandHz, f.rangeHz?.[0] ?? null, f.rangeHz?.[1] ?? null],
      ...[f.monitors, f.channels, f.recordings].map((names) => names.join("; ")),
    ]),
  );
}
