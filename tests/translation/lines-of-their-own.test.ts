import { describe, expect, it } from "vitest";
import { carNoiseDb } from "../../src/standards/car-noise.js";
import { PLAYBACK_CLASSES } from "../../src/standards/playback-classes.js";
import { PINK_DB, POPULAR_MUSIC_DB } from "../../src/standards/popular-music.js";
import { BANDS } from "../../src/translation/bands.js";
import { carMasking } from "../../src/translation/car-masking.js";
import { classDeviation } from "../../src/translation/class-deviation.js";
import { cMinusA, levelShift } from "../../src/translation/level-shift.js";
import { referenceTable } from "../standards/reference-table.js";
import { at, zeros } from "./known-curves.js";

const popular = { name: "popular", levelDb: POPULAR_MUSIC_DB };

describe("Listening at another level", () => {
  it("reads 3.1 dB more with C- than with A-weighting for popular music", () => {
    // The reference page's own computation, to the tenth that it prints.
    expect(Math.abs(cMinusA(popular) - 3.1)).toBeLessThan(0.05);
  });

  const table = referenceTable("equal-loudness-shift");
  it.skipIf(!table)("thins the bass by the reference table's figure for each decibel", () => {
    const { fromDb, toDb, bands } = levelShift(popular, 79, 64 - cMinusA(popular));
    expect(fromDb - toDb).toBeCloseTo(15, 9);
    for (const row of table!) {
      const band = bands.find(({ nominalHz }) => nominalHz === Number(row["f_hz"]));
      if (!band || band.nominalHz > 4000) continue;
      // The table starts at 85 dB: its own claim is that the start matters by 0.01 a decibel at most.
      expect(Math.abs(band.shiftDb! - 15 * Number(row["per_db_of_level_85_70"]))).toBeLessThan(0.16);
    }
  });
});

describe("A moving car", () => {
  const cabin = classDeviation(PLAYBACK_CLASSES.find(({ id }) => id === "car")!);

  /** The reference page, computed there: music at 75 dBA, 100 km/h. It prints whole decibels. */
  it.each([
    [63, -13],
    [100, -7],
  ])("covers a flat system at %d Hz by %d dB", (hz, expected) => {
    const { bands } = carMasking(popular, zeros, 75);
    expect(Math.abs(bands[at(hz)]!.overNoiseDb! - expected)).toBeLessThan(0.5);
  });

  it.each([
    [40, -15],
    [63, -4],
    [160, -1],
  ])("covers the usual bass lift at %d Hz by %d dB", (hz, expected) => {
    const { bands } = carMasking(popular, cabin.deviationDb, 75);
    // Whole decibels, and the alignment of the class: half of one and 0.3.
    expect(Math.abs(bands[at(hz)]!.overNoiseDb! - expected)).toBeLessThan(0.8);
  });

  it("says up to where the bass is covered", () => {
    // 200 Hz is the last band under the noise; its upper edge is 224 Hz.
    expect(carMasking(popular, zeros, 75).maskedBelowHz).toBeGreaterThan(200);
    expect(carMasking({ name: "pink", levelDb: PINK_DB }, zeros, 200).maskedBelowHz).toBeNull();
  });

  const table = referenceTable("car-noise");
  it.skipIf(!table)("makes the noise of the reference table", () => {
    for (const row of table!) {
      expect(carNoiseDb(Number(row["f_hz"]), 80)).toBe(Number(row["80kmh_db"]));
      expect(carNoiseDb(Number(row["f_hz"]), 100)).toBe(Number(row["100kmh_db"]));
      expect(carNoiseDb(Number(row["f_hz"]), 120)).toBe(Number(row["120kmh_db"]));
    }
    expect(carNoiseDb(26, 100)).toBeNull();
  });
});

describe("A class as deviation from neutral", () => {
  it("has a typical member with the mean of neutral over 200 Hz to 4 kHz, and the others around it", () => {
    for (const playbackClass of PLAYBACK_CLASSES) {
      const { deviationDb, envelope } = classDeviation(playbackClass);
      const middle = deviationDb.slice(at(200), at(4000) + 1).map((value) => value!);
      expect(middle.reduce((sum, value) => sum + value, 0) / middle.length).toBeCloseTo(0, 9);
      BANDS.forEach((_, k) => {
        const { lowDb, highDb } = envelope as { lowDb: number[]; highDb: number[] };
        expect(lowDb[k]).toBeLessThan(deviationDb[k]!);
        expect(highDb[k]).toBeGreaterThan(deviationDb[k]!);
      });
    }
  });
});
