import { expect, it } from "vitest";
import { weightingA, weightingC } from "../../src/standards/iec61672.js";
import { referenceTable } from "./reference-table.js";

const table = referenceTable("iec61672-weighting");

// IEC 61672-1:2013 Table 3, at the exact third-octave frequency.
it.each([
  [10, -70.4, -14.3],
  [63.0957, -26.2, -0.8],
  [125.8925, -16.1, -0.2],
  [1000, 0, 0],
  [2511.8864, 1.3, -0.3],
  [7943.2823, -1.1, -3],
  [19952.6231, -9.3, -11.2],
])("at %f Hz A and C weighting read %f and %f dB", (frequencyHz, a, c) => {
  // Half the last printed digit; 0.0504 is the largest difference that rounding of the published table itself leaves.
  expect(Math.abs(weightingA(frequencyHz) - a)).toBeLessThan(0.0505);
  expect(Math.abs(weightingC(frequencyHz) - c)).toBeLessThan(0.0505);
});

if (!table) it.skip("not run: ../shared/reference/iec61672-weighting.csv is absent");
else {
  it("every analytic value of Annex E is met at the exact frequency", () => {
    for (const row of table) {
      const frequencyHz = 1000 * 10 ** (Math.round(10 * Math.log10(Number(row.exact_hz) / 1000)) / 10);
      // Half the last printed digit.
      expect(Math.abs(weightingA(frequencyHz) - Number(row.A_formula_db))).toBeLessThan(5.01e-5);
      expect(Math.abs(weightingC(frequencyHz) - Number(row.C_formula_db))).toBeLessThan(5.01e-5);
      expect(Math.abs(weightingA(frequencyHz) - Number(row.A_table_db))).toBeLessThan(0.0505);
      expect(Math.abs(weightingC(frequencyHz) - Number(row.C_table_db))).toBeLessThan(0.0505);
    }
  });
}
