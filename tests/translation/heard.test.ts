import { describe, expect, it } from "vitest";

import { weightingC } from "../../src/standards/iec61672.js";
import { PINK_DB, POPULAR_MUSIC_DB } from "../../src/standards/popular-music.js";
import { HEARD_BANDS, type HeardBand, heardAt, type Programme, programmeAtLevel } from "../../src/translation/heard.js";
import { NOTE_CREST_DB } from "../../src/translation/limits.js";

const popular: Programme = { name: "popular", levelDb: POPULAR_MUSIC_DB };
const flat = HEARD_BANDS.map(() => 0);

function at(bands: readonly HeardBand[], nominalHz: number): HeardBand {
  return bands.find((band) => band.nominalHz === nominalHz)!;
}

describe("What is heard of a programme", () => {
  it.each([
    [80, 31.5, -7, 3],
    [80, 40, 9, 19],
    [70, 31.5, -17, -7],
    [70, 40, -1, 9],
  ])("at %i dB SPL C, %f Hz of popular music lies %i dB over the threshold, a note %i dB", (level, hz, over, note) => {
    // Computed independently from the same spectrum and ISO 226, to whole decibels.
    const band = at(heardAt(popular, flat, level, null), hz);
    expect(Math.abs(band.overFloorDb! - over)).toBeLessThan(0.51);
    expect(Math.abs(band.audibleMarginDb! - note)).toBeLessThan(0.51);
    expect(band.hiddenBy).toBe("threshold");
  });

  it("has the listening level as its C-weighted level, whatever the programme's own scale", () => {
    for (const levelDb of [POPULAR_MUSIC_DB, PINK_DB, PINK_DB.map((level) => level - 300)]) {
      const power = programmeAtLevel({ name: "", levelDb }, 79).reduce(
        (sum, level, n) => sum + 10 ** ((level + weightingC(HEARD_BANDS[n]!.exactHz)) / 10),
        0,
      );
      // Roundings of 29 sums.
      expect(10 * Math.log10(power)).toBeCloseTo(79, 10);
    }
  });

  it("rises and falls with the monitor's deviation without moving the volume control", () => {
    const neutral = heardAt(popular, flat, 79, null);
    const shelved = heardAt(
      popular,
      HEARD_BANDS.map(({ nominalHz }) => (nominalHz <= 100 ? -12 : 0)),
      79,
      null,
    );
    expect(at(shelved, 50).levelDb).toBeCloseTo(at(neutral, 50).levelDb! - 12, 12);
    expect(at(shelved, 1000).levelDb).toBe(at(neutral, 1000).levelDb);
  });

  it("holds notes that stand out of it by the crest that is asked for", () => {
    const usual = heardAt(popular, flat, 79, null)[5]!;
    const softer = heardAt(popular, flat, 79, null, 4)[5]!;
    expect(usual.audibleMarginDb! - usual.overFloorDb!).toBeCloseTo(NOTE_CREST_DB, 12);
    expect(softer.audibleMarginDb! - softer.overFloorDb!).toBeCloseTo(4, 12);
  });

  it("is hidden by the room's noise where that is over the threshold", () => {
    const noise = HEARD_BANDS.map(({ nominalHz }) => (nominalHz === 63 ? 50 : nominalHz === 1000 ? -5 : null));
    const quiet = heardAt(popular, flat, 79, null);
    const noisy = heardAt(popular, flat, 79, noise);
    // ISO 226: 37.5 dB at 63 Hz.
    expect(at(noisy, 63).overFloorDb).toBeCloseTo(at(quiet, 63).overFloorDb! - 12.5, 12);
    expect(at(noisy, 63).hiddenBy).toBe("noise");
    expect(at(noisy, 1000)).toEqual(at(quiet, 1000));
  });

  it("is not known where the monitor's deviation is not", () => {
    const { levelDb, overFloorDb, audibleMarginDb } = heardAt(popular, [null, ...flat.slice(1)], 79, null)[0]!;
    expect([levelDb, overFloorDb, audibleMarginDb]).toEqual([null, null, null]);
  });

  it("is refused for bands that do not fit", () => {
    expect(() => heardAt(popular, [0], 79, null)).toThrow(RangeError);
    expect(() => heardAt(popular, flat, 79, [0])).toThrow(RangeError);
    expect(() => programmeAtLevel({ name: "", levelDb: [0] }, 79)).toThrow(RangeError);
    expect(() => programmeAtLevel({ name: "", levelDb: flat.map(() => -Infinity) }, 79)).toThrow(RangeError);
    expect(() => programmeAtLevel(popular, NaN)).toThrow(RangeError);
  });
});
