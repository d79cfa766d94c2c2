import { describe, expect, it } from "vitest";
import { drivenTooHard, hidesTheRest, isBent } from "../../src/metrics/driven-too-hard.js";
import type { Distortion } from "../../src/model.js";

const frequencyHz = Array.from({ length: 101 }, (_, n) => 31.6 * 10 ** (n / 40));

/** Harmonics that are the same everywhere, re the fundamental. */
function distortion(secondDb: number, thirdDb: number, fifthDb: number, fromHz = 0): Distortion {
  const at = (hz: number, db: number): number => (hz >= fromHz ? db : -90);
  const of = (db: number): number[] => frequencyHz.map((hz) => at(hz, db));
  const total = (hz: number): number =>
    100 * Math.sqrt([secondDb, thirdDb, fifthDb].reduce((sum, db) => sum + 10 ** (at(hz, db) / 10), 0));
  const harmonicsDb = { 2: of(secondDb), 3: of(thirdDb), 4: of(-90), 5: of(fifthDb) };
  return { frequencyHz, thdPercent: frequencyHz.map(total), harmonicsDb };
}

describe("Harmonics", () => {
  it("of a loudspeaker at its work, 1 % and falling with their order, say nothing", () => {
    expect(drivenTooHard(distortion(-42, -46, -70))).toBeNull();
    expect(hidesTheRest(distortion(-42, -46, -70))).toBe(false);
  });

  it("of 5 % in the middle are too many, whatever makes them", () => {
    const found = drivenTooHard(distortion(-26, -60, -80))!;
    // 100 times 10^(-26 / 20).
    expect(found.percent).toBeCloseTo(5.01, 1);
    expect(found.isClipped).toBe(false);
  });

  it("of 3 %, the fifth as strong as the third, are those of an edge", () => {
    expect(drivenTooHard(distortion(-60, -33, -34))!.isClipped).toBe(true);
  });

  it("hide decays when they come to a tenth, or are those of an edge, and not when a small driver makes 5 %", () => {
    expect(drivenTooHard(distortion(-26, -60, -80))!.hidesDecays).toBe(false);
    expect(drivenTooHard(distortion(-19, -60, -80))!.hidesDecays).toBe(true);
    expect(drivenTooHard(distortion(-60, -33, -34))!.hidesDecays).toBe(true);
  });

  it("of 2 % somewhere are those of a crest cut off, of 0.5 % everywhere those of a loudspeaker", () => {
    expect(isBent(distortion(-46, -60, -80))).toBe(false);
    expect(isBent(distortion(-60, -34, -40, 2000))).toBe(true);
    // Above 3 kHz crests are not looked at.
    expect(isBent(distortion(-60, -34, -40, 3100))).toBe(false);
    expect(isBent(null)).toBe(false);
  });

  it("of an edge that come to 1 % are no harm yet, but hide what else there is", () => {
    expect(drivenTooHard(distortion(-60, -43, -45))).toBeNull();
    expect(hidesTheRest(distortion(-60, -43, -45))).toBe(true);
  });

  it("that noise hides are none", () => {
    const unknown = { ...distortion(-26, -30, -30), thdPercent: frequencyHz.map(() => null) };
    expect(drivenTooHard({ ...unknown, harmonicsDb: {} })).toBeNull();
  });
});
