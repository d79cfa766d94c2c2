import { describe, expect, it } from "vitest";
import { BANDS } from "../../../src/translation/bands.js";
import { smooth } from "../../../src/translation/drift/smooth.js";
import { at, zeros } from "../known-curves.js";

const only = (nominalHz: number, value: number): number[] => zeros.map((_, k) => (k === at(nominalHz) ? value : 0));

describe("Smoothing to what can be put into a mix", () => {
  it("leaves what is wide as it is", () => {
    for (const value of smooth(BANDS.map(() => 2))) expect(value).toBeCloseTo(2, 12);
  });

  /** A third octave in a window of a half octave is 2/3 of it, of two thirds 1/2, of an octave 1/3. */
  it.each([
    [63, 4, 1],
    [160, 3, 1.5],
    [1000, 2, 2],
  ])("of a single band at %d Hz leaves the share of its window", (hz, here, beside) => {
    const smoothed = smooth(only(hz, 6));
    expect(smoothed[at(hz)]).toBeCloseTo(here, 9);
    expect(smoothed[at(hz) + 1]).toBeCloseTo(beside, 9);
    expect(smoothed[at(hz) + 2]).toBeCloseTo(0, 9);
  });

  it("keeps a roll-off where it is: a straight slope stays, but for the lowest and highest band", () => {
    const slope = BANDS.map((_, k) => -8 * k);
    smooth(slope).forEach((value, k) => {
      if (k > 0 && k < BANDS.length - 1) expect(value).toBeCloseTo(slope[k]!, 9);
    });
  });

  it("makes nothing of a band that was not measured, and passes it over beside", () => {
    const curve = BANDS.map((_, k) => (k === at(1000) ? null : 2));
    const smoothed = smooth(curve);
    expect(smoothed[at(1000)]).toBeNull();
    expect(smoothed[at(1250)]).toBeCloseTo(2, 12);
  });
});
