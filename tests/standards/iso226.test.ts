import { describe, expect, it } from "vitest";

import { equalLoudnessDb, hearingThresholdDb, levelShiftDb } from "../../src/standards/iso226.js";
import { referenceTable } from "./reference-table.js";

const contours = referenceTable("iso226");
const shifts = referenceTable("equal-loudness-shift");

/** Restated for the 2003 edition with its constant of 1.15. */
const PUBLISHED: readonly (readonly [phon: number, frequencyHz: number, levelDb: number])[] = [
  [40, 20, 99.85],
  [40, 63, 73.08],
  [40, 100, 64.37],
  [40, 1000, 40.01],
  [40, 4000, 36.65],
  [80, 63, 98.36],
];

describe("Equal loudness", () => {
  it.each(PUBLISHED)("of %f phon at %f Hz lies at %f dB", (phon, frequencyHz, levelDb) => {
    // Half the last printed digit.
    expect(Math.abs(equalLoudnessDb(phon, frequencyHz)! - levelDb)).toBeLessThan(0.00501);
  });

  it.each([20, 40, 60, 80, 90])("of %f phon is that level at 1 kHz", (phon) => {
    // The standard's parameters are rounded to three digits: its own contours pass 0.01 dB beside.
    expect(Math.abs(equalLoudnessDb(phon, 1000)! - phon)).toBeLessThan(0.02);
  });

  it("is not stated for other levels and frequencies", () => {
    expect(equalLoudnessDb(19.9, 1000)).toBeNull();
    expect(equalLoudnessDb(90.1, 1000)).toBeNull();
    expect(equalLoudnessDb(80.1, 5000)).toBeNull();
    expect(equalLoudnessDb(80.1, 4000)).not.toBeNull();
    expect(equalLoudnessDb(60, 19)).toBeNull();
    expect(equalLoudnessDb(60, 16_000)).toBeNull();
  });

  it("runs between its neighbours where the standard has no value", () => {
    const between = equalLoudnessDb(60, 56)!;
    expect(between).toBeGreaterThan(equalLoudnessDb(60, 63)!);
    expect(between).toBeLessThan(equalLoudnessDb(60, 50)!);
  });
});

describe("The threshold of hearing", () => {
  it("is lowest near 3 kHz and steep at both ends", () => {
    expect(hearingThresholdDb(3150)).toBe(-6);
    expect(hearingThresholdDb(20)).toBe(78.5);
    // ISO 389-7:2005, from memory.
    expect(hearingThresholdDb(16_000)).toBe(40.2);
    expect(hearingThresholdDb(19)).toBeNull();
    expect(hearingThresholdDb(18_000)).toBeNull();
  });
});

describe("Turning the volume down", () => {
  it("takes more from the bass than from the middle, and nothing from 1 kHz", () => {
    // Computed from the standard's contours as printed: four roundings to 0.01 dB.
    expect(Math.abs(levelShiftDb(63, 85, 70)! + 5.74)).toBeLessThan(0.0201);
    expect(levelShiftDb(1000, 85, 70)).toBe(0);
    expect(levelShiftDb(63, 70, 85)).toBeCloseTo(-levelShiftDb(63, 85, 70)!, 12);
    expect(levelShiftDb(8000, 85, 70)).toBeNull();
  });
});

if (!contours || !shifts) it.skip("not run: ../shared/reference/iso226.csv or equal-loudness-shift.csv is absent");
else {
  it("every tabled contour is met where the standard states one", () => {
    for (const row of contours) {
      const frequencyHz = Number(row.f_hz);
      expect(hearingThresholdDb(frequencyHz)).toBe(Number(row.T_f_db));
      for (const phon of [20, 40, 60, 70, 80, 85]) {
        const levelDb = equalLoudnessDb(phon, frequencyHz);
        if (levelDb === null) expect(phon > 80 && frequencyHz > 4000).toBe(true);
        // Half the last printed digit.
        else expect(Math.abs(levelDb - Number(row[`${phon}phon_db`]))).toBeLessThan(0.00501);
      }
    }
  });

  it("every tabled shift of balance is met where the standard states both contours", () => {
    for (const row of shifts) {
      const frequencyHz = Number(row.f_hz);
      for (const [from, to] of [
        [85, 70],
        [80, 60],
        [80, 40],
      ] as const) {
        const shiftDb = levelShiftDb(frequencyHz, from, to);
        if (shiftDb === null) expect(from > 80 && frequencyHz > 4000).toBe(true);
        // The table was made of four contour values rounded to 0.01 dB, so it is itself off by up to four halves of that.
        else expect(Math.abs(shiftDb - Number(row[`${from}_to_${to}_phon_db`]))).toBeLessThan(0.0201);
      }
    }
  });
}
