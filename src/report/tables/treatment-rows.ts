import type { Results } from "../../model.js";
import type { CsvCell } from "../csv.js";

/** Rows about what would help. */

type Row = readonly CsvCell[];

export const gainColumns = ["order", "code", "bandHz", "monitors", "codes", "rises", "toBelieve", "falls"];

/** `order` is that of the page. */
export function gainRows({ treatment, findings }: Results): Row[] {
  return (treatment?.problems ?? []).map(({ finding, trust }, n) => {
    const { code, bandHz, monitors } = findings[finding]!;
    return [
      ...[n + 1, code, bandHz, monitors.join("; "), trust?.codes.join("; ") ?? null],
      ...[trust?.rises ?? null, trust?.toBelieve ?? null, trust?.falls ?? null],
    ];
  });
}

export const depthColumns = [
  ...["order", "frequencyHz", "resistivityPaSPerM2", "absorption"],
  ...["depthM", "withHalfAir", "straightOn", "tested"],
];

export function depthRows({ treatment }: Results): Row[] {
  return (treatment?.problems ?? []).flatMap(({ measures }, n) =>
    measures.flatMap((measure) =>
      measure.kind !== "porous"
        ? []
        : measure.depths.map((one) => [
            ...[n + 1, measure.frequencyHz, one.resistivity, one.absorption],
            ...[one.depthM, one.withHalfAir, one.straightOn, one.tested],
          ]),
    ),
  );
}
