import { describe, expect, it } from "vitest";

import { roomNoiseDb } from "../../../src/pipeline/translate/monitor-case.js";
import { BANDS } from "../../../src/translation/bands.js";
import { measurement } from "../../translation/known-case.js";
import { at } from "../../translation/known-curves.js";

const OCTAVES_HZ = [31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000];

function noise(levelReference: "spl" | "dbfs"): ReturnType<typeof roomNoiseDb> {
  const bands = OCTAVES_HZ.map((nominalHz, n) => ({ nominalHz, levelDb: 50 - 4 * n }));
  return roomNoiseDb({ sides: [measurement({ background: { levelReference, bands, aWeightedDb: null } })] });
}

describe("The noise of a room by third octave", () => {
  it("adds up to its octaves again, the three of each being alike", () => {
    const thirds = noise("spl")!;
    for (const [n, hz] of OCTAVES_HZ.entries()) {
      const three = [-1, 0, 1].map((step) => thirds[at(hz) + step]!);
      const sum = three.reduce((power, level) => power + 10 ** (level / 10), 0);
      // Rounding.
      expect(10 * Math.log10(sum)).toBeCloseTo(50 - 4 * n, 9);
      expect(new Set(three).size).toBe(1);
    }
  });

  it("is not known where its octave was not measured", () => {
    const thirds = noise("spl")!;
    BANDS.forEach(({ nominalHz }, k) => {
      expect(thirds[k] === null).toBe(nominalHz > 10_000);
    });
  });

  it("is not known in a session without a calibration", () => {
    expect(noise("dbfs")).toBeNull();
    expect(roomNoiseDb({ sides: [measurement()] })).toBeNull();
  });
});
