import { describe, expect, it } from "vitest";
import { AUDIBLE_MODE_S, audibleModeS } from "../../src/standards/modal-decay.js";
import { referenceTable } from "./reference-table.js";

describe("The longest unheard decay of a mode", () => {
  const rows = referenceTable("modal-thresholds");

  it.skipIf(rows === null)("is the reference table's, row by row (not run where that is absent)", () => {
    // The table also names the origin of each row: Stephenson 2012, Fazenda et al. 2015, Avis et al. 2007, and a choice of ours.
    const table = rows!.map((row) => [Number(row["f_hz"]), Number(row["default_s"])]);
    // One rounding of a power.
    for (const [hz, timeS] of table) expect(audibleModeS(hz!)).toBeCloseTo(timeS!, 12);
    expect(table).toHaveLength(AUDIBLE_MODE_S.length);
  });

  it("lies between its neighbours on logarithmic axes, and is not stated outside the table", () => {
    // Halfway on both logarithms: the geometric means.
    expect(audibleModeS(Math.sqrt(63 * 80))).toBeCloseTo(Math.sqrt(0.51 * 0.4), 12);
    expect(audibleModeS(19.9)).toBeNull();
    expect(audibleModeS(251)).toBeNull();
  });
});
