import { describe, expect, it } from "vitest";

import { BANDS } from "../../src/translation/bands.js";
import { programmeAtLevel } from "../../src/translation/heard.js";
import { mixProgramme } from "../../src/translation/programme-of-mix.js";

const bands = (power: (hz: number) => number): Parameters<typeof mixProgramme>[1] =>
  BANDS.map(({ nominalHz }) => ({ nominalHz, left: power(nominalHz), right: 0, cross: 0 }));

describe("A mix as programme", () => {
  it("has the mean power of its sides in each third octave", () => {
    const { levelDb, empty } = mixProgramme(
      "song.wav",
      bands((hz) => (hz === 1000 ? 0.02 : 2)),
    );
    // Roundings of a logarithm.
    for (const [k, { nominalHz }] of BANDS.entries()) expect(levelDb[k]).toBeCloseTo(nominalHz === 1000 ? -20 : 0, 12);
    expect(empty).not.toContain(true);
  });

  it("is as loud as it is played, however loud its file is", () => {
    const [soft, loud] = [1e-8, 1].map((gain) =>
      programmeAtLevel(
        mixProgramme(
          "song.wav",
          bands((hz) => gain / hz),
        ),
        79,
      ),
    );
    for (const [k, level] of soft!.entries()) expect(level).toBeCloseTo(loud![k]!, 9);
  });

  it("holds nothing where it has no power, at a level that is still a number", () => {
    const { levelDb, empty } = mixProgramme(
      "song.wav",
      bands((hz) => (hz < 100 ? 0 : 1)),
    );
    expect(levelDb.every(Number.isFinite)).toBe(true);
    expect(empty).toEqual(BANDS.map(({ nominalHz }) => nominalHz < 100));
    // One step of 24 bits, 1e-14 of power.
    expect(levelDb[0]).toBeCloseTo(-140, 9);
  });
});
