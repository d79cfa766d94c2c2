import { expect, it } from "vitest";
import {
  bandEdges,
  bandsWithin,
  classOneLimits,
  limitBreakpoints,
  OCTAVES,
  THIRD_OCTAVES,
} from "../../src/standards/iec61260.js";
import { referenceTable } from "./reference-table.js";

const midbands = referenceTable("iec61260-midbands");
const limits = { 1: referenceTable("iec61260-octave"), 3: referenceTable("iec61260-class1-third-octave") };

// IEC 61260-1:2014 5.2 to 5.4, computed by hand: 1000 * 10^(x/10).
it.each([
  [3, 50, 50.11872],
  [3, 63, 63.09573],
  [3, 16_000, 15_848.93192],
  [1, 31.5, 31.62278],
  [1, 125, 125.89254],
  [1, 8000, 7943.28235],
] as const)("of fraction 1/%i the band called %f Hz has its exact midband at %f Hz", (fraction, nominalHz, exactHz) => {
  const band = [...OCTAVES, ...THIRD_OCTAVES].find((b) => b.fraction === fraction && b.nominalHz === nominalHz)!;
  // Half the last printed digit.
  expect(Math.abs(band.exactHz - exactHz)).toBeLessThan(5e-6);
});

it("thirty third octaves run from 25 Hz to 20 kHz and ten octaves from 31.5 Hz to 16 kHz", () => {
  expect(THIRD_OCTAVES.map(({ nominalHz }) => nominalHz).slice(0, 4)).toEqual([25, 31.5, 40, 50]);
  expect(THIRD_OCTAVES.at(-1)!.nominalHz).toBe(20_000);
  expect(THIRD_OCTAVES.length).toBe(30);
  expect(OCTAVES.map(({ nominalHz }) => nominalHz)).toEqual([31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000, 16_000]);
});

it("a band is counted only when both edges lie inside the swept range", () => {
  const names = bandsWithin(22.3, 17_800).map(({ fraction, nominalHz }) => `${fraction}/${nominalHz}`);
  expect(names[0]).toBe("1/31.5");
  expect(names).toContain("3/25");
  expect(names).toContain("3/16000");
  expect(names).not.toContain("1/16000");
  expect(bandsWithin(22.4, 17_700).map(({ nominalHz }) => nominalHz)).not.toContain(25);
});

// IEC 61260-1:2014 Table 1, class 1, dB.
it.each([
  [1, 1, -0.4, 0.4],
  [1, 10 ** (0.3 / 8), -0.4, 0.5],
  [1, 10 ** (0.3 / 4), -0.4, 0.7],
  [1, 10 ** (0.9 / 8), -0.4, 1.4],
  [1, 10 ** 0.3, 16.6, Infinity],
  [1, 10 ** -0.6, 40.5, Infinity],
  [1, 10 ** 0.9, 60, Infinity],
  [1, 20, 70, Infinity],
  [3, 1.02667, -0.4, 0.5],
  [3, 1.29437, 16.6, Infinity],
  [3, 1 / 5.4, 70, Infinity],
] as const)("a 1/%i octave filter at %f times midband has its tabled limits", (fraction, ratio, leastDb, mostDb) => {
  const found = classOneLimits(fraction, ratio);
  // Ratios are printed with five decimals: the steepest limit, 70 dB per decade of log frequency, moves by 0.001 dB.
  expect(Math.abs(found.leastDb - leastDb)).toBeLessThan(0.001);
  if (Number.isFinite(mostDb)) expect(Math.abs(found.mostDb - mostDb)).toBeLessThan(0.001);
  else expect(found.mostDb).toBe(Infinity);
});

it("at the edge both the passband's last limit and the stopband's first hold", () => {
  expect(classOneLimits(1, 10 ** 0.15)).toEqual({ leastDb: 1.2, mostDb: 5.3 });
  expect(classOneLimits(3, 10 ** -0.05)).toEqual({ leastDb: 1.2, mostDb: 5.3 });
});

if (!midbands) it.skip("not run: ../shared/reference/iec61260-midbands.csv is absent");
else {
  it("every exact midband and edge equals the reference table", () => {
    let compared = 0;
    for (const row of midbands) {
      const band = [...OCTAVES, ...THIRD_OCTAVES].find(
        ({ fraction, nominalHz }) => fraction === Number(row.b) && nominalHz === Number(row.nominal_hz),
      );
      if (!band) continue;
      compared++;
      const [low, high] = bandEdges(band);
      // Half the last printed digit.
      expect(Math.abs(band.exactHz - Number(row.exact_fm_hz))).toBeLessThan(5.001e-6);
      expect(Math.abs(low - Number(row.f1_hz))).toBeLessThan(5.001e-6);
      expect(Math.abs(high - Number(row.f2_hz))).toBeLessThan(5.001e-6);
    }
    expect(compared).toBe(40);
  });
}

for (const fraction of [1, 3] as const) {
  const table = limits[fraction];
  if (!table) it.skip(`not run: the limits of 1/${fraction} octave in ../shared/reference are absent`);
  else {
    it(`every class 1 limit of a 1/${fraction} octave filter equals the reference table`, () => {
      const { passband, stopband } = limitBreakpoints(fraction);
      const breakpoints = [...passband, ...stopband];
      expect(table.length).toBe(breakpoints.length);
      for (const [n, row] of table.entries()) {
        const ratio = breakpoints[n]!;
        // Half the last printed digit.
        expect(Math.abs(ratio - Number(row.omega_high))).toBeLessThan(5.001e-6);
        expect(Math.abs(1 / ratio - Number(row.omega_low))).toBeLessThan(5.001e-6);
        const found = classOneLimits(fraction, n < passband.length ? ratio * (1 - 1e-9) : ratio * (1 + 1e-9));
        // A billionth of the ratio off the point: 70 dB per decade times 4e-10.
        expect(found.leastDb).toBeCloseTo(Number(row.class1_min_db), 6);
        if (row.class1_max_db === "inf") expect(found.mostDb).toBe(Infinity);
        else expect(found.mostDb).toBeCloseTo(Number(row.class1_max_db), 6);
      }
    });
  }
}
