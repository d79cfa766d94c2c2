import { describe, expect, it } from "vitest";
import { NOISE_RATING_OCTAVES_HZ, noiseRating, noiseRatingLevel } from "../../src/standards/noise-rating.js";
import { referenceTable } from "./reference-table.js";

describe("Noise rating curves", () => {
  const table = referenceTable("nr-curves");
  it.skipIf(!table)("have the reference table's levels (not run where that is absent)", () => {
    expect(table!.map((row) => Number(row.octave_hz))).toEqual([...NOISE_RATING_OCTAVES_HZ]);
    for (const row of table!) {
      for (const rating of [10, 15, 20]) {
        const published = Number(row[`NR${rating}_db`]);
        // Half the last printed digit; halves were rounded either way.
        expect(Math.abs(noiseRatingLevel(rating, Number(row.octave_hz))! - published)).toBeLessThan(0.0501);
      }
    }
  });

  it("give their own number to noise that follows them, to the octave that sticks out, and rise with level", () => {
    for (const rating of [0, 10, 15, 37.5]) {
      const octaves = NOISE_RATING_OCTAVES_HZ.map((nominalHz) => ({
        nominalHz,
        levelDb: noiseRatingLevel(rating, nominalHz),
      }));
      // One rounding of a level.
      expect(noiseRating(octaves)!.rating).toBeCloseTo(rating, 10);
      const hum = octaves.map((one) => ({ ...one, levelDb: one.levelDb! + (one.nominalHz === 63 ? 7.9 : 0) }));
      // 7.9 dB are ten steps of 0.79 dB at 63 Hz.
      expect(noiseRating(hum)).toMatchObject({ nominalHz: 63 });
      expect(noiseRating(hum)!.rating).toBeCloseTo(rating + 10, 10);
    }
  });

  it("say nothing without a known octave, or of an octave that they do not have", () => {
    expect(noiseRating([{ nominalHz: 1000, levelDb: null }])).toBeNull();
    expect(noiseRating([{ nominalHz: 16_000, levelDb: 90 }])).toBeNull();
    expect(noiseRatingLevel(10, 16_000)).toBeNull();
  });
});
