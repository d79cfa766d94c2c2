import { describe, expect, it } from "vitest";
import { fallingFit } from "../../src/dsp/monotone-fit.js";

describe("The nearest falling course", () => {
  it("is the values themselves where they fall", () => {
    expect(fallingFit([5, 3, 3, -1])).toEqual([5, 3, 3, -1]);
  });

  it("is the mean where they rise", () => {
    expect(fallingFit([1, 2, 3, 6])).toEqual([3, 3, 3, 3]);
  });

  it("pools neighbours as far back as they contradict it", () => {
    expect(fallingFit([9, 1, 2, 6])).toEqual([9, 3, 3, 3]);
    expect(fallingFit([])).toEqual([]);
  });
});
