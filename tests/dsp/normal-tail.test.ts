import { expect, it } from "vitest";
import { normalTail } from "../../src/dsp/normal-tail.js";

// scipy 1.x, scipy.special.erfc(d / sqrt(2)).
const KNOWN = [
  [0, 1],
  [0.5, 0.6170750774519739],
  [1, 0.31731050786291415],
  [1.959964, 0.04999999819288484],
  [3, 0.0026997960632601918],
  [3.3333333, 0.0008581207692122807],
  [4.2, 2.669149803181268e-5],
  [6, 1.9731752900754036e-9],
] as const;

it("the chance of a normal error beyond so many deviations is that of an independent computation", () => {
  for (const [deviations, chance] of KNOWN) {
    // The fit's own bound.
    expect(Math.abs(normalTail(deviations) / chance - 1)).toBeLessThan(1.2e-7);
  }
});
