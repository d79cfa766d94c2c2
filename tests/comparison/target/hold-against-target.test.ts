import { describe, expect, it } from "vitest";
import { builtInTarget, defaultTarget } from "../../../src/comparison/target/built-in-target.js";
import { bandExcessDb, holdAgainstTarget } from "../../../src/comparison/target/hold-against-target.js";
import { isAdvisoryTarget, type Target, targetLevel } from "../../../src/comparison/target/target.js";
import type { TargetResult } from "../../../src/model.js";
import { builtInTargets } from "../../../src/schema/built-in-targets.js";
import { seededRandom } from "../../recording/seeded-random.js";
import { referenceTable } from "../../standards/reference-table.js";
import { thirds } from "./thirds.js";

/** Third octaves from 200 Hz to 4 kHz. */
const FIT_BANDS = 14;
/** Levels of some 100 dB summed over 14 bands: a few hundred roundings. */
const ROUNDING_DB = 1e-11;

const band = (result: TargetResult, nominalHz: number): TargetResult["bands"][number] =>
  result.bands.find((one) => one.nominalHz === nominalHz)!;
const follow = (target: Target, shiftDb = 0) => thirds((hz) => targetLevel(target, hz)! + shiftDb);

describe.each(builtInTargets)("A monitor that follows %s exactly", (id) => {
  const target = builtInTarget(id);

  it.each([0, -31.7, 94])("and is %f dB louder deviates nowhere: the offset is that gain", (shiftDb) => {
    const { target: result, reason } = holdAgainstTarget(follow(target, shiftDb), target);
    expect(reason).toBeNull();
    expect(Math.abs(result.offsetDb! - shiftDb)).toBeLessThan(ROUNDING_DB);
    for (const { deviationDb } of result.bands) expect(Math.abs(deviationDb!)).toBeLessThan(ROUNDING_DB);
    expect(result.withinPercent).toBe(100);
    expect(result.rmsDb).toBeLessThan(ROUNDING_DB);
    expect(result.fitHz).toEqual([200, 4000]);
    expect(result.advisory).toBe(true);
  });

  it("but for 4 dB more at 1 kHz is outside in that band alone", () => {
    const curve = follow(target);
    const bumped = {
      ...curve,
      levelDb: curve.levelDb.map((level, k) => level! + (curve.nominalHz[k] === 1000 ? 4 : 0)),
    };
    const { target: result } = holdAgainstTarget(bumped, target);
    const outside = result.bands.filter((one) => (bandExcessDb(one) ?? 0) > 0);
    expect(outside.map(({ nominalHz }) => nominalHz)).toEqual([1000]);
    // The bump carries the mean of 14 bands along by a fourteenth of itself.
    expect(Math.abs(result.offsetDb! - 4 / FIT_BANDS)).toBeLessThan(ROUNDING_DB);
    expect(Math.abs(band(result, 1000).deviationDb! - (4 - 4 / FIT_BANDS))).toBeLessThan(ROUNDING_DB);
    const limited = result.bands.filter(({ lowerDb, upperDb }) => lowerDb !== null || upperDb !== null).length;
    expect(limited).toBe(26);
    expect(result.withinPercent).toBeCloseTo((100 * 25) / 26, 12);
    // 25 bands at -4/14 dB and one at 4 - 4/14 dB.
    const rms = Math.sqrt((25 * (4 / 14) ** 2 + (4 - 4 / 14) ** 2) / 26);
    expect(Math.abs(result.rmsDb! - rms)).toBeLessThan(ROUNDING_DB);
  });
});

describe("The deviation from a target", () => {
  const flat = builtInTarget("flat");

  it("does not depend on gain, and its mean over the fit is zero, whatever the curve", () => {
    const random = seededRandom(7);
    for (let run = 0; run < 50; run++) {
      const curve = thirds(() => 20 * random() - 10);
      const gainDb = 100 * random() - 50;
      const louder = { ...curve, levelDb: curve.levelDb.map((level) => level! + gainDb) };
      for (const id of builtInTargets) {
        const plain = holdAgainstTarget(curve, builtInTarget(id)).target;
        const other = holdAgainstTarget(louder, builtInTarget(id)).target;
        expect(Math.abs(other.offsetDb! - plain.offsetDb! - gainDb)).toBeLessThan(ROUNDING_DB);
        other.bands.forEach(({ deviationDb }, k) => {
          expect(Math.abs(deviationDb! - plain.bands[k]!.deviationDb!)).toBeLessThan(ROUNDING_DB);
        });
        const fitted = plain.bands.filter(({ nominalHz }) => nominalHz >= 200 && nominalHz <= 4000);
        const sum = fitted.reduce((total, { deviationDb }) => total + deviationDb!, 0);
        expect(fitted).toHaveLength(FIT_BANDS);
        expect(Math.abs(sum)).toBeLessThan(ROUNDING_DB);
      }
    }
  });

  it("leaves no smaller RMS over the fit for an offset a little to either side", () => {
    const random = seededRandom(11);
    const { target } = holdAgainstTarget(
      thirds(() => 6 * random()),
      flat,
    );
    const fitted = target.bands.filter(({ nominalHz }) => nominalHz >= 200 && nominalHz <= 4000);
    const rms = (shiftDb: number): number => Math.hypot(...fitted.map(({ deviationDb }) => deviationDb! - shiftDb));
    expect(rms(0)).toBeLessThan(rms(0.01));
    expect(rms(0)).toBeLessThan(rms(-0.01));
  });

  it("is as uncertain as the band and the mean of 14 together", () => {
    const { target } = holdAgainstTarget(
      thirds(() => 0, 0.2),
      flat,
    );
    // 0.2 sqrt(1 + 1/14), one rounding each.
    expect(band(target, 100).uncertaintyDb).toBeCloseTo(0.2 * Math.sqrt(1 + 1 / FIT_BANDS), 12);
  });

  it("is not known where the band was not measured, and the others keep theirs", () => {
    const { target } = holdAgainstTarget(
      thirds((hz) => (hz === 40 ? null : 1)),
      flat,
    );
    expect(band(target, 40)).toMatchObject({ deviationDb: null, uncertaintyDb: null, targetDb: 0 });
    expect(band(target, 50).deviationDb).toBe(0);
    expect(target.withinPercent).toBe(100);
  });

  it("is not known anywhere when a band of the fit was not measured: no mean over a part", () => {
    const { target, reason } = holdAgainstTarget(
      thirds((hz) => (hz === 1000 ? null : 1)),
      flat,
    );
    expect(reason).toBe("fit-range-not-measured");
    expect([target.offsetDb, target.withinPercent, target.rmsDb]).toEqual([null, null, null]);
    expect(target.bands.every(({ deviationDb, uncertaintyDb }) => deviationDb === null && uncertaintyDb === null)).toBe(
      true,
    );
  });

  it("keeps to the range of a curve that ends, and fits over what they have in common", () => {
    const points = [
      { frequencyHz: 500, levelDb: 2 },
      { frequencyHz: 2000, levelDb: 2 },
    ];
    const { target } = holdAgainstTarget(
      thirds((hz) => (hz === 315 ? null : 5)),
      { id: "mine", source: "mine.csv", points, limits: [] },
    );
    expect(target.fitHz).toEqual([500, 2000]);
    expect(target.offsetDb).toBe(3);
    expect(band(target, 400)).toMatchObject({ targetDb: null, deviationDb: null });
    expect(target.bands.filter(({ deviationDb }) => deviationDb !== null)).toHaveLength(7);
    expect([target.withinPercent, target.rmsDb]).toEqual([null, null]);
  });

  it("cannot be told from a curve that has less than an octave in common with the fit", () => {
    const points = [
      { frequencyHz: 20, levelDb: 0 },
      { frequencyHz: 250, levelDb: 0 },
    ];
    const { target, reason } = holdAgainstTarget(
      thirds(() => 0),
      { id: "low", source: "low.csv", points, limits: [] },
    );
    expect(reason).toBe("target-outside-fit-range");
    expect(target.offsetDb).toBeNull();
  });

  it("counts as inside on the limit itself, and by how much it is outside beyond", () => {
    expect(bandExcessDb({ deviationDb: 3, lowerDb: -3, upperDb: 3 })).toBe(0);
    expect(bandExcessDb({ deviationDb: -5, lowerDb: -3, upperDb: 3 })).toBe(2);
    expect(bandExcessDb({ deviationDb: 1, lowerDb: -3, upperDb: 3 })).toBe(-2);
    expect(bandExcessDb({ deviationDb: -40, lowerDb: null, upperDb: 3 })).toBe(-43);
    expect(bandExcessDb({ deviationDb: 1, lowerDb: null, upperDb: null })).toBeNull();
  });
});

describe("The built-in targets", () => {
  // The ITU mask's fall in the bass could not be read: a roll-off is no offence against it, and one against the EBU's.
  it("hold a pair that ends at 100 Hz against the EBU mask's lower limit, and have none from the ITU there", () => {
    const curve = thirds((hz) => (hz < 100 ? -10 : 0));
    const excess = (id: "bs1116" | "ebu3276"): number =>
      Math.max(...holdAgainstTarget(curve, builtInTarget(id)).target.bands.map((one) => bandExcessDb(one) ?? -99));
    expect(excess("ebu3276")).toBe(7);
    expect(excess("bs1116")).toBe(-3);
  });

  it("are advisory, all of them, and say where curve and limits come from", () => {
    for (const id of builtInTargets) {
      expect(isAdvisoryTarget(builtInTarget(id))).toBe(true);
      expect(builtInTarget(id).source).toMatch(/memory|choice of ours/);
    }
  });

  it("are flat near the loudspeaker, where the direct sound rules, and tilted elsewhere, if none is named", () => {
    expect([defaultTarget("nearfield"), defaultTarget("check")]).toEqual(["flat", "flat"]);
    expect([defaultTarget("main"), defaultTarget("midfield"), defaultTarget("tv")]).toEqual(["tilt", "tilt", "tilt"]);
  });

  const table = referenceTable("target-curves");
  it.skipIf(!table)("follow the reference table's tilt, row by row (not run where that is absent)", () => {
    for (const row of table!) {
      const level = targetLevel(builtInTarget("tilt"), Number(row.f_hz));
      // Half the last printed digit.
      expect(Math.abs(level! - Number(row["tilt_minus0.5dB_oct_re1k"]))).toBeLessThan(0.00501);
    }
    expect(table!.length).toBe(31);
  });
});
