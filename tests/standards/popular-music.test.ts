import { expect, it } from "vitest";

import { THIRD_OCTAVES } from "../../src/standards/iec61260.js";
import {
  PINK_DB,
  POPULAR_MUSIC_DB,
  POPULAR_MUSIC_SPREAD_DB,
  popularMusicDensityDb,
} from "../../src/standards/popular-music.js";
import { referenceTable } from "./reference-table.js";

const table = referenceTable("popular-music-ltas");

/** Elowsson and Friberg 2017: Hz, slope of the power density in dB per octave (restatement). */
const SLOPES: readonly (readonly [number, number])[] = [
  [200, -2.35],
  [400, -3.668],
  [800, -4.985],
  [1600, -6.303],
  [3200, -7.621],
  [6400, -8.938],
];

it.each(SLOPES)("at %f Hz the published spectrum falls by %f dB per octave", (frequencyHz, slope) => {
  // Of a quadratic the difference over a symmetric octave is the slope itself; half the last printed digit.
  const octave = popularMusicDensityDb(frequencyHz * Math.SQRT2)! - popularMusicDensityDb(frequencyHz / Math.SQRT2)!;
  expect(Math.abs(octave - slope)).toBeLessThan(0.000501);
});

it("the two parts of the published spectrum meet where the paper says", () => {
  // They cross at 93.9 Hz, the paper rounds to 94: at most 0.15 Hz, 0.0023 octave, where their slopes differ by 5.4 dB per octave.
  expect(Math.abs(popularMusicDensityDb(94)! - popularMusicDensityDb(94.001)!)).toBeLessThan(0.0125);
  expect(popularMusicDensityDb(29)).toBeNull();
  expect(popularMusicDensityDb(16_000)).toBeNull();
});

it("from 100 Hz to 4 kHz the published spectrum falls by 4.53 dB per octave", () => {
  const octaves = Array.from({ length: 201 }, (_, n) => Math.log2(100) + (n / 200) * Math.log2(40));
  const levels = octaves.map((octave) => popularMusicDensityDb(2 ** octave)!);
  const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [middle, level] = [mean(octaves), mean(levels)];
  const slope =
    octaves.reduce((sum, octave, n) => sum + (octave - middle) * (levels[n]! - level), 0) /
    octaves.reduce((sum, octave) => sum + (octave - middle) ** 2, 0);
  // Half the last printed digit, and as much again for the paper's own grid of frequencies, which is not stated.
  expect(Math.abs(slope + 4.53)).toBeLessThan(0.01);
});

if (!table) it.skip("not run: ../shared/reference/popular-music-ltas.csv is absent");
else {
  const rows = (source: string): Record<string, string>[] => table.filter((row) => row.source === source);

  it("the default spectrum, its spread and pink noise are the tabled ones", () => {
    THIRD_OCTAVES.slice(0, 29).forEach(({ nominalHz }, n) => {
      const row = rows("default").find(({ f_hz }) => Number(f_hz) === nominalHz)!;
      expect(POPULAR_MUSIC_DB[n]).toBe(Number(row.level_db));
      expect(POPULAR_MUSIC_SPREAD_DB[n]).toBe(Number(row.spread_db));
      expect(PINK_DB[n]).toBe(0);
    });
    expect(POPULAR_MUSIC_DB).toHaveLength(29);
  });

  it("the published spectrum by third octave is the tabled one", () => {
    // A third octave is 0.2316 f wide; levels re the mean of 200 Hz to 2 kHz.
    const bandDb = (frequencyHz: number): number =>
      popularMusicDensityDb(frequencyHz)! + 10 * Math.log10(0.2316 * frequencyHz);
    const middle = THIRD_OCTAVES.filter(({ nominalHz }) => nominalHz >= 200 && nominalHz <= 2000);
    const offset = middle.reduce((sum, { exactHz }) => sum + bandDb(exactHz), 0) / middle.length;
    for (const row of rows("elowsson-friberg-2017")) {
      const band = THIRD_OCTAVES.find(({ nominalHz }) => nominalHz === Number(row.f_hz));
      if (!band || popularMusicDensityDb(band.exactHz) === null) continue;
      // Half the last printed digit, and the difference between nominal and exact frequency where the slope is steepest.
      expect(Math.abs(bandDb(band.exactHz) - offset - Number(row.level_db))).toBeLessThan(0.15);
    }
  });
}
