import { describe, expect, it } from "vitest";
import { combByPlacement } from "../../../src/comparison/changes/comb.js";
import { levelByPlacement, rmsApart } from "../../../src/comparison/changes/placement.js";
import type { MeasurementPair } from "../../../src/comparison/changes/reading.js";
import type { Reflection } from "../../../src/model.js";
import { Random } from "../../../src/simulate/random.js";
import { THIRD_OCTAVES } from "../../../src/standards/iec61260.js";
import { levelDeviationDb } from "../../../src/standards/diffuse-field.js";
import { knownMeasurement } from "../known-measurement.js";

const third = (nominalHz: number) => THIRD_OCTAVES.find((one) => one.nominalHz === nominalHz)!;

function reflection(delayS: number, levelDb: number): Reflection {
  return {
    delayS,
    levelDb,
    pathDifferenceM: 343 * delayS,
    levelUncertaintyDb: 0.3,
    polarity: 1,
    firstNotchHz: 500,
    close: false,
  };
}

function pairApart(apartM: number): MeasurementPair {
  const one = knownMeasurement({ bands: () => ({ t20S: 0.3, t30S: 0.3 }) });
  // Nothing of the sides is asked for.
  return { before: one, after: one, apartM } as unknown as MeasurementPair;
}

describe("A microphone put back on its mark", () => {
  it("twice, each time within 2 cm in 95 of 100 cases, stands as far from where it stood as is counted with", () => {
    const random = new Random(12);
    const TRIALS = 20_000;
    // 2 cm hold 95 % of a normal error in three directions: 2.795 standard deviations (tables of chi, 3 degrees of freedom).
    const off = () => random.fillNormal(new Float64Array(3)).map((value) => (value * 0.02) / 2.795);
    let squares = 0;
    let inside = 0;
    for (let n = 0; n < TRIALS; n++) {
      const [a, b] = [off(), off()];
      squares += a.reduce((sum, value, axis) => sum + (value - b[axis]!) ** 2, 0) / TRIALS;
      if (Math.hypot(...a) < 0.02) inside += 1 / TRIALS;
    }
    expect(Math.abs(inside - 0.95)).toBeLessThan(4 * Math.sqrt((0.95 * 0.05) / TRIALS));
    // Of a mean square of three normal squares each: 4 sqrt(2 / 3n).
    expect(Math.abs(squares / rmsApart(0.02, 0) ** 2 - 1)).toBeLessThan(4 * Math.sqrt(2 / (3 * TRIALS)));
    expect(rmsApart(0.02, 0.1)).toBeCloseTo(Math.hypot(0.1, rmsApart(0.02, 0)), 12);
  });

  it("changes nothing where it was not touched, little in the bass, and like another place in the treble", () => {
    expect(levelByPlacement(pairApart(0), third(8000))).toBe(0);
    const pair = pairApart(0.0175);
    // kr = 0.032 at 100 Hz: root 2 (1 - sinc²) = kr root(2/3) of the deviation.
    const band = third(100);
    const wide = band.exactHz * (10 ** 0.05 - 10 ** -0.05);
    const turn = (2 * Math.PI * band.exactHz * 0.0175) / 343;
    expect(levelByPlacement(pair, band) / (turn * Math.sqrt(2 / 3) * levelDeviationDb(wide, 0.3))).toBeCloseTo(1, 3);
    const far = pairApart(1);
    const treble = third(8000);
    const wideTreble = treble.exactHz * (10 ** 0.05 - 10 ** -0.05);
    expect(levelByPlacement(far, treble) / (Math.SQRT2 * levelDeviationDb(wideTreble, 0.3))).toBeCloseTo(1, 2);
  });
});

describe("The comb of one strong reflection", () => {
  it("moves a band by what its own formula gives for two delays, where the band is narrow", () => {
    // 1 ms, -5 dB: far below the first notch the level falls by 20 lg |1 + a exp(-i w t)|, here to first order in the step.
    const band = third(200);
    const a = 10 ** (-5 / 20);
    const stepS = 0.0175 / Math.sqrt(3) / 343;
    const phase = 2 * Math.PI * band.exactHz * 0.001;
    const slope =
      ((10 / Math.LN10) * 2 * a * Math.sin(phase) * 2 * Math.PI * band.exactHz) / (1 + a * a + 2 * a * Math.cos(phase));
    // Averaged over delays 10 % about it, and over the band: some per cent.
    expect(combByPlacement(band, [reflection(0.001, -5)], 0.0175) / Math.abs(slope * stepS)).toBeCloseTo(1, 1);
  });

  it("averages out in bands that hold many of its teeth, and where the reflection is faint", () => {
    const late = combByPlacement(third(4000), [reflection(0.012, -5)], 0.0175);
    const early = combByPlacement(third(4000), [reflection(0.001, -5)], 0.0175);
    expect(late).toBeLessThan(0.3 * early);
    expect(combByPlacement(third(4000), [reflection(0.001, -21)], 0.0175)).toBe(0);
    expect(combByPlacement(third(4000), [reflection(0.001, -5)], 0)).toBe(0);
  });
});
