import type { Results } from "../../model.js";
import type { CsvCell } from "../csv.js";

/** Findings of every measurement and of the session, one row each. */

export const findingColumns = [
  "about",
  "code",
  "severity",
  "message",
  "remedy",
  "value",
  "unit",
  "limit",
  "atS",
  "bandHz",
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
      ...[f.code, f.severity, f.message, f.remedy, f.value, f.unit, f.limit, f.atS, f.bandHz],
      f.recordings.join("; "),
    ]),
  );
}
