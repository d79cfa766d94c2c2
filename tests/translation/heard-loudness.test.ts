import { describe, expect, it } from "vitest";

import { CRITICAL_BAND_EDGES_HZ } from "../../src/standards/critical-bands.js";
import { POPULAR_MUSIC_DB } from "../../src/standards/popular-music.js";
import { BANDS } from "../../src/translation/bands.js";
import { heardLoudness } from "../../src/translation/heard-loudness.js";
import { specificLoudness } from "../../src/translation/loudness/specific-loudness.js";
import { programmeAtLevel } from "../../src/translation/heard.js";

const programme = { name: "popular", levelDb: POPULAR_MUSIC_DB };
const zeros = BANDS.map(() => 0);
/** Nothing below 100 Hz, as a nearfield that ends early. */
const small = BANDS.map(({ nominalHz }) => (nominalHz < 100 ? -60 : 0));

describe("The loudness of a programme on a monitor", () => {
  it("is the neutral one's where the monitor is neutral", () => {
    const { lostShare, barks } = heardLoudness(programme, zeros, 79, "diffuse")!;
    expect(lostShare).toBe(0);
    for (const { neutral, heard } of barks) expect(heard).toBe(neutral);
  });

  it("adds up to the standard's total over 24 Bark", () => {
    const { barks } = heardLoudness(programme, zeros, 79, "diffuse")!;
    const { sone } = specificLoudness(programmeAtLevel(programme, 79).slice(0, 28), "diffuse");
    // A sum of 240 values taken at the upper ends of their steps stands for an integral: 1 %.
    expect(Math.abs(barks.reduce((sum, { neutral }) => sum + neutral, 0) / sone - 1)).toBeLessThan(0.01);
  });

  it("lacks its lowest critical band on one that ends at 100 Hz, and nothing far above", () => {
    const { lostShare, barks } = heardLoudness(programme, small, 79, "diffuse")!;
    expect(CRITICAL_BAND_EDGES_HZ[0]).toBe(100);
    // The standard's first band ends at 0.9 Bark: the last of ten steps is the second band's.
    expect(barks[0]!.heard).toBeCloseTo(0.1 * barks[1]!.heard, 1);
    expect(barks[0]!.heard).toBeLessThan(0.2 * barks[0]!.neutral);
    expect(barks[20]!.heard).toBeCloseTo(barks[20]!.neutral, 9);
    expect(lostShare).toBeGreaterThan(
      (barks[0]!.neutral - barks[0]!.heard) / barks.reduce((sum, { neutral }) => sum + neutral, 0) - 0.01,
    );
  });

  it("does not make up for what is missing by what is too loud", () => {
    const tilted = BANDS.map(({ nominalHz }) => (nominalHz < 100 ? -60 : 6));
    const { lostShare, barks } = heardLoudness(programme, tilted, 79, "diffuse")!;
    expect(barks.reduce((sum, { heard, neutral }) => sum + heard - neutral, 0)).toBeGreaterThan(0);
    expect(lostShare).toBeGreaterThan(0);
  });

  it("is not known where a band is not, or is beyond what the standard is made for", () => {
    expect(heardLoudness(programme, [null, ...zeros.slice(1)], 79, "diffuse")).toBeNull();
    expect(heardLoudness(programme, zeros, 140, "diffuse")).toBeNull();
    // 16 kHz lies above the standard's range.
    expect(heardLoudness(programme, [...zeros.slice(0, 28), null], 79, "diffuse")).not.toBeNull();
  });
});
