import { describe, expect, it } from "vitest";

import { loudnessLevel, specificLoudness, type Loudness } from "../../../src/translation/loudness/specific-loudness.js";
import {
  allowedOff,
  ANNEX_B2_DB,
  ANNEX_B2_SONE,
  ANNEX_B2_SPECIFIC,
  PINK_SONE,
  PINK_SPECIFIC,
  TONES,
  toneThroughFilters,
} from "./published-loudness.js";

function at({ specific }: Loudness, bark: number): number {
  return specific[Math.round(10 * bark) - 1]!;
}

function pink(levelDb: number): Loudness {
  return specificLoudness(Array<number>(28).fill(levelDb), "free");
}

/** Level of pink noise that makes a specific loudness at a place, by halving. */
function pinkLevel(bark: number, sonePerBark: number): number {
  let [low, high] = [0, 100];
  for (let n = 0; n < 50; n++) {
    const middle = (low + high) / 2;
    if (at(pink(middle), bark) < sonePerBark) low = middle;
    else high = middle;
  }
  return low;
}

describe("Loudness after ISO 532-1", () => {
  const worked = specificLoudness(ANNEX_B2_DB, "free");

  it("is that of the standard's worked third-octave levels", () => {
    // Half the last digit printed.
    expect(Math.abs(worked.sone - ANNEX_B2_SONE)).toBeLessThan(0.0005);
  });

  it.each(ANNEX_B2_SPECIFIC)("lies at %f Bark where the standard's worked levels put it", (bark, published) => {
    // Half the last digit printed.
    expect(Math.abs(at(worked, bark) - published)).toBeLessThan(0.00005 + 1e-9);
  });

  it.each(TONES)(
    "of a tone of $frequencyHz Hz at $levelDb dB is the published one, with the skirts of the class 1 filters",
    ({ frequencyHz, levelDb, sone, specific }) => {
      const computed = specificLoudness(toneThroughFilters(frequencyHz, levelDb), "free");
      // The standard's own tolerance; what is left is its filters against ours.
      expect(Math.abs(computed.sone - sone)).toBeLessThan(allowedOff(sone));
      for (const [bark, published] of specific)
        expect(Math.abs(at(computed, bark) - published)).toBeLessThan(allowedOff(published));
    },
  );

  it("of a tone that fills one ideal band is too small, which the skirts explain", () => {
    const onlyOne = toneThroughFilters(1000, 60).map((level, n) => (n === 16 ? level : -Infinity));
    // An independent implementation, to its last digit.
    expect(specificLoudness(onlyOne, "free").sone).toBeCloseTo(3.4903, 4);
  });

  it("of the published pink noise follows from its specific loudness in one critical band", () => {
    const noise = pink(pinkLevel(10, 0.404));
    expect(Math.abs(noise.sone - PINK_SONE)).toBeLessThan(allowedOff(PINK_SONE));
    for (const [bark, published] of PINK_SPECIFIC)
      expect(Math.abs(at(noise, bark) - published)).toBeLessThan(allowedOff(published));
  });

  it("of equal levels is greater in a diffuse field", () => {
    const levels = Array<number>(28).fill(60);
    // An independent implementation of the same tables, to its last digit.
    expect(specificLoudness(levels, "free").sone).toBeCloseTo(31.939, 2);
    expect(specificLoudness(levels, "diffuse").sone).toBeCloseTo(33.866, 2);
  });

  it("of silence is nothing", () => {
    const { specific, sone, phon } = specificLoudness(Array<number>(28).fill(-Infinity), "free");
    expect(sone).toBe(0);
    expect(specific).toEqual(Array<number>(240).fill(0));
    // 40 * 0.0005^0.35, the standard's own floor.
    expect(phon).toBeCloseTo(2.8, 1);
  });

  it("is the integral of what it is over the Bark scale", () => {
    // Steps of 0.1 Bark against the exact integral: at each edge at most one step of the rise is missed.
    const sum = worked.specific.reduce((total, value) => total + value, 0) / 10;
    expect(Math.abs(sum - worked.sone)).toBeLessThan(0.01 * worked.sone);
  });

  it("rises with a third octave in its band and above, not below: the ear masks upwards", () => {
    const flat = Array<number>(28).fill(60);
    const plain = specificLoudness(flat, "diffuse");
    const raised = specificLoudness(
      flat.map((level, n) => (n === 16 ? 75 : level)),
      "diffuse",
    );
    const rise = (bark: number): number => at(raised, bark) - at(plain, bark);
    // The band at 1 kHz is 7.9 to 9.2 Bark; the step of 0.1 Bark that ends at 7.9 is the last untouched one.
    for (let tenth = 1; tenth <= 79; tenth++) expect(rise(tenth / 10)).toBe(0);
    expect(rise(9.5)).toBeGreaterThan(0);
    expect(rise(8.5)).toBeGreaterThan(rise(9.5));
  });

  it("doubles with ten phon", () => {
    expect(loudnessLevel(1)).toBe(40);
    expect(loudnessLevel(8)).toBe(70);
  });

  it.each([
    ["27 bands", Array<number>(27).fill(0)],
    ["a level that is none", [NaN, ...Array<number>(27).fill(0)]],
    ["a level beyond the tables", [121, ...Array<number>(27).fill(0)]],
  ])("is refused for %s", (_, levels) => {
    expect(() => specificLoudness(levels, "free")).toThrow(RangeError);
  });
});
