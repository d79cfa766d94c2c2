import { describe, expect, it } from "vitest";

import { loudnessChange } from "../../../src/translation/loudness/loudness-change.js";

const flat = Array<number>(28).fill(60);
const none = Array<number>(28).fill(0);

describe("What a deviation does to loudness", () => {
  it("is nothing where there is none", () => {
    const { perBark, lostShare, phon } = loudnessChange(flat, none);
    expect(perBark).toEqual(Array<number>(24).fill(0));
    expect(lostShare).toBe(0);
    expect(phon).toBe(0);
  });

  it("is half the loudness for ten phon less", () => {
    const { lostShare, phon } = loudnessChange(
      flat,
      none.map(() => -20),
    );
    // N = 2^((L - 40) / 10) by definition of the two scales.
    expect(1 - lostShare!).toBeCloseTo(2 ** (phon! / 10), 10);
    expect(phon).toBeLessThan(-10);
  });

  it("stays in the band and above it: the ear masks upwards", () => {
    const { perBark } = loudnessChange(
      flat,
      none.map((_, n) => (n === 16 ? 15 : 0)),
    );
    // 1 kHz is 7.9 to 9.2 Bark; the step of 0.1 Bark that ends at 7.9 is the last untouched one.
    expect(perBark.slice(0, 7)).toEqual(Array<number>(7).fill(0));
    expect(perBark[8]).toBeGreaterThan(0);
    expect(perBark[9]).toBeGreaterThan(0);
    expect(Math.max(...perBark.map((value) => value!))).toBe(perBark[8]);
  });

  it("is not known where the deviation is not", () => {
    const { perBark, lostShare } = loudnessChange(
      flat,
      none.map((_, n) => (n === 0 || n === 16 ? null : 0)),
    );
    // 25 Hz lies in 0 to 0.9 Bark, 1 kHz in 7.9 to 9.2.
    expect(perBark.map((value, bark) => (value === null ? bark : -1)).filter((bark) => bark >= 0)).toEqual([
      0, 7, 8, 9,
    ]);
    expect(lostShare).toBe(0);
  });

  it("has no share of a programme that is not heard at all", () => {
    const { lostShare, phon } = loudnessChange(Array<number>(28).fill(-60), none);
    expect(lostShare).toBeNull();
    expect(phon).toBeNull();
  });
});
