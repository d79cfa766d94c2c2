import { describe, expect, it } from "vitest";
import { predictModes } from "../../src/geometry/room-modes.js";
import type { MeasuredMode, Results } from "../../src/model.js";
import { modesSection } from "../../src/report/sections/modes.js";
import { resultsFixture } from "./results-fixture.js";

type RoomModes = NonNullable<Results["roomModes"]>;

const mode = (frequencyHz: number, parts: Partial<MeasuredMode> = {}): MeasuredMode => ({
  ...{ kind: "mode", frequencyHz, rangeHz: [frequencyHz - 1, frequencyHz + 1], frequencyUncertaintyHz: 0.1 },
  ...{ t60S: 1.2, t60UncertaintyS: 0.05, levelDb: 0, places: [], members: [], unheardS: 0.9 },
  ...{ bumps: [{ monitor: "mains", raisedDb: 8, heardFromDb: 3 }], audible: true, predicted: [] },
  ...parts,
});

function told(parts: Partial<RoomModes>): string {
  const roomModes: RoomModes = {
    ...{ measurements: ["mains-L@mix"], rangeHz: [20, 300], reason: null, measured: [], predicted: null },
    ...{ predictedReason: null, tolerance: 0.03, schroederHz: null, ringMaps: [] },
    ...parts,
  };
  return JSON.stringify(modesSection({ ...resultsFixture(), roomModes }));
}
const map = { monitor: "mains", frequencyHz: [28, 40], falls: [{ byDb: 30, timeS: [0.6, 0.2] }] };

describe("The modes of a cube", () => {
  const predicted = predictModes([6.06, 6.06, 6.06], 343, 100);
  const page = told({ predicted, measured: [mode(28.3, { predicted: [0, 1, 2] })], ringMaps: [map] });

  it("are put between all walls that are equally far apart", () => {
    expect(page).toMatch(/by the dimensions sound between front and rear wall, the side walls or floor and ceiling\./);
  });

  it("stand beside every predicted one that they may be", () => {
    const { tables } = JSON.parse(page) as { tables: { rows: unknown[][] }[] };
    const rows = tables.at(-1)!.rows.slice(0, 4);
    const measured = rows.map((row) => JSON.stringify(row.at(-1)).includes("28.3"));
    expect(measured).toEqual([true, true, true, false]);
  });
});
