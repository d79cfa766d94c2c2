import { describe, expect, it } from "vitest";

import { matchLoudness, TRUE_PEAK_LIMIT_DBTP } from "../../../src/translation/listen/match-loudness.js";

describe("Versions of a mix", () => {
  it("become equally loud, as loud as the mix where their peaks allow it", () => {
    const { loudnessLufs, gains } = matchLoudness(-14, [
      { loudnessLufs: -14, truePeakDbtp: -8 },
      { loudnessLufs: -20, truePeakDbtp: -15 },
    ]);
    expect(loudnessLufs).toBe(-14);
    expect(gains.map(({ gainDb }) => gainDb)).toEqual([0, 6]);
  });

  it("all step back together so that no peak passes the limit", () => {
    const versions = [
      { loudnessLufs: -10, truePeakDbtp: 0.5 },
      { loudnessLufs: -16, truePeakDbtp: -2 },
    ];
    const { loudnessLufs, gains } = matchLoudness(-10, versions);
    const peaks = versions.map(({ truePeakDbtp }, n) => truePeakDbtp + gains[n]!.gainDb);
    expect(Math.max(...peaks)).toBeCloseTo(TRUE_PEAK_LIMIT_DBTP, 12);
    // Loudness follows the gain exactly: both are powers.
    for (const [n, version] of versions.entries())
      expect(version.loudnessLufs + gains[n]!.gainDb).toBeCloseTo(loudnessLufs, 12);
  });

  it("are left quieter where next to nothing of the mix is left, and say so", () => {
    const { gains } = matchLoudness(-14, [
      { loudnessLufs: -50, truePeakDbtp: -40 },
      { loudnessLufs: null, truePeakDbtp: null },
    ]);
    expect(gains).toEqual([
      { gainDb: 20, matched: false, reason: "too-quiet-to-match" },
      { gainDb: 0, matched: false, reason: "nothing-left" },
    ]);
  });
});
