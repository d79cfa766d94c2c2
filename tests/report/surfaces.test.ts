import { expect, it } from "vitest";
import type { MeasurementSurfaces, Results } from "../../src/model.js";
import { surfaceSection } from "../../src/report/sections/surfaces.js";
import { quietResults } from "../findings/quiet-results.js";

type Origin = MeasurementSurfaces["origins"][number];

/** A reflection 5 dB down, and what may have sent it; floor and ceiling are expected to. */
function results(
  origins: readonly Pick<Origin, "surfaces" | "confidence">[],
  directBlockedBy: readonly string[] = [],
): Results {
  const quiet = quietResults();
  const reflection = {
    ...{ delayS: 0.004, pathDifferenceM: 1.37, levelDb: -5, levelUncertaintyDb: 0.2 },
    ...{ polarity: 1 as const, firstNotchHz: 125, close: false },
  };
  const path = { detourM: 1.37, delayS: 0.004, detourUncertaintyM: 0.02, azimuthDeg: 0, blockedBy: [] };
  return {
    ...quiet,
    measurements: quiet.measurements.map((m) => ({ ...m, reflections: [reflection] })),
    surfaces: {
      placementUncertaintyM: 0.02,
      panels: [],
      measurements: [
        {
          ...{ id: "mains-L@mix", reason: null, dips: null, directBlockedBy: [...directBlockedBy] },
          paths: [
            { ...path, surface: "floor", pointM: [1.5, 2, 0], elevationDeg: -51 },
            { ...path, surface: "ceiling", pointM: [1.5, 2, 2.5], elevationDeg: 51 },
          ],
          origins: origins.map((one) => ({ ...one, reflection: 0, offM: 0 })),
        },
      ],
    },
  };
}

/** Surface, what is heard of it and how certainly. */
function heard(of: Results): string[][] {
  const table = surfaceSection(of).tables.find((block) => block.kind === "table")!;
  return table.rows.map((row) => [2, 7, 8].map((column) => row[column]!.text));
}

it("A reflection that floor and ceiling send equally likely stands beside both, with each one's share", () => {
  const equal = [
    { surfaces: ["floor"], confidence: 0.499 },
    { surfaces: ["ceiling"], confidence: 0.499 },
  ];
  expect(heard(results(equal))).toEqual([
    ["the floor", "−5.0 dB, or by the ceiling", "50"],
    ["the ceiling", "−5.0 dB, or by the floor", "50"],
  ]);
});

it("A reflection that one surface sends stands beside it alone, and one that hardly fits beside none", () => {
  const sure = [
    { surfaces: ["floor"], confidence: 0.8 },
    { surfaces: ["ceiling"], confidence: 0.15 },
  ];
  expect(heard(results(sure))).toEqual([
    ["the floor", "−5.0 dB", "80"],
    ["the ceiling", "does not stand out", "—"],
  ]);
  expect(heard(results([{ surfaces: ["floor"], confidence: 0.3 }]))[0]).toEqual([
    "the floor",
    "does not stand out",
    "—",
  ]);
});

it("A screen between loudspeaker and seat is said to block the direct sound", () => {
  const notes = (of: Results): string => JSON.stringify(surfaceSection(of).tables[0]);
  expect(notes(results([], ["screen"]))).toMatch(
    /“screen” stands between .* and “mix”.*the direct sound is blocked by it/,
  );
  expect(notes(results([]))).not.toMatch(/blocked by it/);
});
