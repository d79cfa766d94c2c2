import { describe, expect, it } from "vitest";
import { schroederBound } from "../../../src/pipeline/room-modes/schroeder-bound.js";

describe("The Schroeder frequency", () => {
  it("is known by half the shares that decay times and volume are known by", () => {
    // 2000 sqrt(0.4 / 100) = 126.5; times 10 % apart about their mean, 5 % of the volume: half of hypot(0.1, 0.05).
    const bound = schroederBound([0.4, 0.36, 0.44], 100)!;
    expect(bound.frequencyHz).toBeCloseTo(126.49, 2);
    expect(bound.uncertaintyHz! / bound.frequencyHz).toBeCloseTo(0.5 * Math.hypot(0.1, 0.05), 9);
  });

  it("has no stated uncertainty by a single decay time, and is not told without a volume", () => {
    expect(schroederBound([0.4], 100)!.uncertaintyHz).toBeNull();
    expect(schroederBound([0.4, 0.5], null)).toBeNull();
    expect(schroederBound([], 100)).toBeNull();
  });
});
