import { describe, expect, it } from "vitest";
import { expandedUncertainty, realDifference } from "../../src/standards/real-difference.js";

describe("the uncertainty of a difference", () => {
  it("is twice the root of the sum of squares", () => {
    // 2 * sqrt(0.09 + 0.16) in binary: a few roundings.
    expect(expandedUncertainty([0.3, 0.4])).toBeCloseTo(1, 14);
    expect(expandedUncertainty([0.25])).toBe(0.5);
    expect(expandedUncertainty([])).toBe(0);
  });

  it("is not known when one of the two values' is not", () => {
    expect(expandedUncertainty([0.3, null])).toBeNull();
  });
});

describe("a difference", () => {
  // Exact in binary: U = 2 * sqrt(0.75^2 + 1^2) = 2.5.
  const wide = [0.75, 1];
  // U = 2 * sqrt(0.375^2 + 0.5^2) = 1.25.
  const narrow = [0.375, 0.5];
  const above = 1 + 2 ** -40;

  it("is real only when it is larger than what is not known and than what is just noticeable", () => {
    expect(realDifference(2.5 * above, wide, 1)).toBe("real");
    expect(realDifference(2.5, wide, 1)).toBe("cannot-tell");
    expect(realDifference(2 * above, narrow, 2)).toBe("real");
    expect(realDifference(2, narrow, 2)).toBe("none");
    expect(realDifference(-2 * above, narrow, 2)).toBe("real");
  });

  it("is none only when nothing noticeable can hide in what is not known", () => {
    expect(realDifference(0, narrow, 1.25)).toBe("none");
    expect(realDifference(-1.25, narrow, 1.25)).toBe("none");
    expect(realDifference(0, narrow, 1.25 / above)).toBe("cannot-tell");
    expect(realDifference(1.25 * above, narrow, 1.25)).toBe("real");
  });

  it("cannot be told while it could be noticed but is smaller than what is not known", () => {
    expect(realDifference(1.5, wide, 1)).toBe("cannot-tell");
    expect(realDifference(0.5, wide, 1)).toBe("cannot-tell");
  });

  it("cannot be told without the value or the uncertainty of either side", () => {
    expect(realDifference(null, narrow, 1)).toBe("cannot-tell");
    expect(realDifference(40, [0.1, null], 1)).toBe("cannot-tell");
  });

  it("is judged by the one uncertainty of the difference as by those of its two sides", () => {
    expect(realDifference(2.5 * above, [1.25], 1)).toBe("real");
    expect(realDifference(2.5, [1.25], 1)).toBe("cannot-tell");
  });

  it("is refused when an uncertainty or the least noticeable is no size", () => {
    expect(() => realDifference(1, [-0.1], 1)).toThrow(RangeError);
    expect(() => realDifference(1, [Number.NaN], 1)).toThrow(RangeError);
    expect(() => realDifference(1, [0.1], Number.NaN)).toThrow(RangeError);
  });
});
