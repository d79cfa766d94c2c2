import { describe, expect, it } from "vitest";
import { trustChanges } from "../../../src/comparison/changes/trust.js";
import type { Translation } from "../../../src/model.js";
import type { ChangedQuantity } from "../../../src/schema/changes.js";

type Band = Translation["trust"][number]["bands"][number];
type Reason = Band["reasons"][number];

function band(grade: Band["grade"], ...reasons: [Reason["code"], Reason["grade"]][]): Band[] {
  const all = reasons.map(([code, of]): Reason => ({ code, grade: of, value: 3, limit: 2.5, unit: "dB" }));
  return [{ nominalHz: 125, grade, reasons: all }];
}

function judged(quantity: string, verdict: ChangedQuantity["verdict"], bandHz: number | null = 125): ChangedQuantity {
  return {
    ...{
      quantity,
      bandHz,
      fraction: bandHz === null ? null : 3,
      atS: null,
      unit: "dB",
      before: 3,
      after: 1,
      missing: null,
      difference: -2,
    },
    ...{ uncertainty: 0.5, justNoticeable: 1.5, needed: 1.5, because: "" },
    change: verdict === "better" || verdict === "worse" ? "real" : "cannot-tell",
    verdict,
  };
}

describe("A band of the trust map", () => {
  const peak = band("care", ["deviation-peak", "care"]);
  const clean = band("believe");

  it("is gained when the peak that spoke against it is really lower", () => {
    const [one] = trustChanges(peak, clean, [judged("targetDb", "better")]);
    expect(one).toMatchObject({ before: 1, after: 2, difference: 1, change: "real", verdict: "better" });
  });

  it("is not gained by a peak that crosses its limit by chance", () => {
    const [one] = trustChanges(peak, clean, [judged("targetDb", "no-real-change")]);
    expect(one).toMatchObject({ before: 1, after: 2, verdict: "cannot-tell" });
  });

  it("is not gained by what has changed in another band", () => {
    expect(trustChanges(peak, clean, [judged("targetDb", "better", 160)])[0]!.verdict).toBe("cannot-tell");
  });

  it("is gained only when all that spoke against it is gone for real, and lost by one thing alone", () => {
    const two = band("care", ["deviation-peak", "care"], ["left-right", "care"]);
    const half = [judged("targetDb", "better")];
    expect(trustChanges(two, clean, half)[0]!.verdict).toBe("cannot-tell");
    expect(trustChanges(two, clean, [...half, judged("leftRightDb", "better")])[0]!.verdict).toBe("better");
    expect(trustChanges(clean, two, [judged("targetDb", "worse")])[0]!.verdict).toBe("worse");
  });

  it("rises from blind to care when what blinded it has gone, whatever else remains", () => {
    const blind = band("blind", ["deviation-dip", "blind"], ["left-right", "care"]);
    const care = band("care", ["left-right", "care"]);
    expect(trustChanges(blind, care, [judged("targetDb", "better")])[0]).toMatchObject({
      difference: 1,
      verdict: "better",
    });
  });

  it("is not lost because fewer places were measured: that is no fault of the room", () => {
    const [one] = trustChanges(clean, band("care", ["one-place", "care"]), [judged("targetDb", "worse")]);
    expect(one!.verdict).toBe("cannot-tell");
    expect(one!.because).toContain("not what it was measured of");
  });

  it("hangs on a reflection wherever that lies in time", () => {
    const reflected = band("care", ["early-reflection", "care"]);
    expect(trustChanges(reflected, clean, [judged("reflectionDb", "better", null)])[0]!.verdict).toBe("better");
  });

  it("that keeps its grade has not changed, and one that was never measured is not told", () => {
    expect(trustChanges(peak, peak, [])[0]).toMatchObject({ change: "none", verdict: "no-real-change" });
    expect(trustChanges(band(null, ["not-measured", null]), band(null, ["not-measured", null]), [])).toEqual([]);
    expect(trustChanges(band(null, ["not-measured", null]), clean, [])[0]).toMatchObject({
      before: null,
      verdict: "cannot-tell",
    });
  });
});
