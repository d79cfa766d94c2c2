import { describe, expect, it } from "vitest";
import { type QuietFacts, quietFacts } from "../../src/impulse/quiet-facts.js";

const BANDS = [31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000];
const sampleRate = 48_000;
/** Two seconds of silence, a sweep of four, two of silence. */
const SWEEP_S = [2, 6] as const;
const event = { kind: "sweep", channel: "L", atSample: 0, samples: 4 * sampleRate } as const;
const found = [{ event, startSample: 2 * sampleRate, clarityDb: 60 }];
const SWEEP_DB = -20;

/** Cells of noise of -80 dB with what a change makes of them; a sweep leaves the octaves behind it quiet, half-way each. */
function facts(change: (levelDb: number, atS: number, bandHz: number) => number): QuietFacts {
  const levelDb = Array.from({ length: 80 }, (_, block) => {
    const atS = block / 10;
    return Float64Array.from(BANDS, (bandHz, band) => {
      const passedS = SWEEP_S[0] + (4 * (band + 1)) / BANDS.length;
      const sounds = atS >= SWEEP_S[0] && atS < passedS;
      // Noise scatters by a decibel from cell to cell.
      return sounds ? Number.NaN : change(-80 + Math.sin(7 * block + 3 * band), atS, bandHz);
    });
  });
  return quietFacts({ blockS: 0.1, bandHz: BANDS, levelDb }, found, sampleRate, 0.3, SWEEP_DB);
}

describe("The cells that a sweep leaves quiet", () => {
  it("tell nothing when the noise goes on as it was", () => {
    const { gainDb, rise, knocks } = facts((level) => level);
    expect(Math.abs(gainDb ?? 0)).toBeLessThan(0.5);
    expect(rise).toBeNull();
    expect(knocks).toEqual([]);
  });

  it("tell a gain that all bands follow under the sweep", () => {
    expect(facts((level, atS) => (atS >= 2 && atS < 6 ? level - 6 : level)).gainDb).toBeCloseTo(-6, 0);
  });

  it("tell an octave that is louder from the sweep on, and say when", () => {
    const { gainDb, rise, shiftDb } = facts((level, atS, hz) => (atS >= 2 && hz === 250 ? level + 40 : level));
    expect(gainDb).toBeNull();
    expect(rise).toMatchObject({ bandHz: 250 });
    // Cells scatter by a decibel around both medians.
    expect(Math.abs(rise!.byDb - 40)).toBeLessThan(1.5);
    expect(Math.abs(rise!.inSilenceDb - 40)).toBeLessThan(1.5);
    expect(Math.abs(shiftDb[3]! - 40)).toBeLessThan(1.5);
  });

  it("leave out what is too soft to touch a figure", () => {
    expect(facts((level, atS, hz) => (atS >= 2 && hz === 250 ? level + 8 : level)).rise).toBeNull();
  });

  it("tell one short sound under the sweep, and not one before it", () => {
    const knocked = facts((level, atS, hz) => (atS === 5 && hz === 125 ? level + 40 : level)).knocks;
    expect(knocked).toHaveLength(1);
    expect(knocked[0]).toMatchObject({ atS: 5, bandHz: 125 });
    expect(Math.abs(knocked[0]!.excessDb - 40)).toBeLessThan(1.5);
    // -80 dB and 40 more, over a sweep of -20.
    expect(Math.abs(knocked[0]!.reSweepDb + 20)).toBeLessThan(1.5);
    expect(facts((level, atS, hz) => (atS === 1 && hz === 125 ? level + 40 : level)).knocks).toEqual([]);
  });
});
