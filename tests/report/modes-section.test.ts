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

describe("The ring map", () => {
  const tongues = { monitor: "mains", frequencyHz: [28, 33, 40, 50, 63, 71, 80] };
  // The limits, to 30 dB down, by the table: 0.49, 0.42, 0.36, 0.30, 0.255, 0.23, 0.20 s.
  const ringMaps = [{ ...tongues, falls: [{ byDb: 30, timeS: [0.8, 0.3, 0.3, 0.6, 0.2, 0.3, 0.1] }] }];
  const faint = [{ monitor: "mains", raisedDb: 0.4, heardFromDb: 3 }];

  it("says why tongues past the line are not called ringing, and not of the one that is", () => {
    const measured = [mode(28), mode(50, { audible: false, bumps: faint })];
    const page = told({ measured, ringMaps });
    expect(page).toMatch(
      /Past the line as well, and not called ringing: 50 Hz \(50 Hz: long, but raises the response too little\); 71 Hz \(no mode was found there\)\./,
    );
  });

  it("gives a tongue to the group that holds it, not to one beside it whose middle is nearer", () => {
    const group = (from: number, to: number, parts: Partial<MeasuredMode>) =>
      mode((from + to) / 2, { kind: "group", rangeHz: [from, to], audible: null, ...parts });
    const measured = [mode(28), group(63, 67, { t60S: 0.3 }), group(69, 120, { t60S: null })];
    const loud = [{ ...tongues, falls: [{ byDb: 30, timeS: [0.8, 0.3, 0.3, 0.2, 0.2, 0.3, 0.1] }] }];
    expect(told({ measured, ringMaps: loud })).toContain("71 Hz (69 to 120 Hz: a wide group: no decay of its own)");
  });

  it("says nothing of tongues that end before the line", () => {
    const short = [{ ...tongues, falls: [{ byDb: 30, timeS: [0.8, 0.3, 0.3, 0.25, 0.2, 0.2, 0.1] }] }];
    expect(told({ measured: [mode(28)], ringMaps: short })).not.toMatch(/Past the line/);
  });
});

describe("Modes told apart", () => {
  it("are counted up to the Schroeder frequency, which is stated with its uncertainty", () => {
    const measured = [mode(28), mode(50), mode(140)];
    const page = told({ measured, schroederHz: 110, schroederUncertaintyHz: 6 });
    expect(page).toMatch(/Between 20 and 110 Hz 2 modes were told apart/);
    expect(page).toMatch(/Above about 110 ± 12 Hz \(Schroeder frequency\)/);
  });

  it("stand beside the others of a wide group they lie in, and a group without one is told by its ends", () => {
    const group = { kind: "group" as const, t60S: null, t60UncertaintyS: null, audible: null };
    const wide = mode(51, { ...group, rangeHz: [39, 67] });
    const apart = mode(90, { ...group, rangeHz: [85, 95] });
    const page = told({ measured: [wide, mode(50), apart] });
    expect(page).toMatch(/"others between 39 and 67"/);
    expect(page).toMatch(/"85 to 95"/);
  });
});
