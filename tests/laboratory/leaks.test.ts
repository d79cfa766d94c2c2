import { describe, expect, it } from "vitest";
import type { BandMetrics, Results } from "../../src/model.js";
import { analyseLab, cleanSession } from "./laboratory.js";
import { leaksOf } from "./leaks.js";

const clean = await analyseLab(cleanSession());

/** The same results with one octave or third octave of the left loudspeaker changed. */
function withBand(fraction: 1 | 3, nominalHz: number, change: (band: BandMetrics) => Partial<BandMetrics>): Results {
  return {
    ...clean,
    measurements: clean.measurements.map((one) => ({
      ...one,
      bands: one.bands.map((band) =>
        one.id === "nears-L@mix" && band.fraction === fraction && band.nominalHz === nominalHz
          ? { ...band, ...change(band) }
          : band,
      ),
    })),
  };
}

describe("a figure that is wrong without saying so", () => {
  it("is a level 1.6 dB off, and is none 1.4 dB off, where 1.5 dB are just noticed", () => {
    const louder = (dB: number): Results => withBand(3, 100, ({ levelDb }) => ({ levelDb: levelDb! + dB }));
    expect(leaksOf(clean, louder(1.4))).toEqual([]);
    expect(leaksOf(clean, louder(1.6))).toEqual([expect.stringContaining("level of nears-L@mix at 100 Hz")]);
  });

  it("is a reverberation time a fifth off in a band that the direct sound does not dominate", () => {
    const longer = withBand(1, 250, ({ t20S }) => ({ t20S: 1.2 * t20S! }));
    expect(leaksOf(clean, longer)).toEqual([expect.stringContaining("T20 of nears-L@mix at 250 Hz")]);
  });

  it("is none when it is missing, or when the same band says that it was disturbed", () => {
    expect(
      leaksOf(
        clean,
        withBand(1, 250, () => ({ t20S: null })),
      ),
    ).toEqual([]);
    const flagged = withBand(1, 250, ({ t20S, flags }) => ({ t20S: 1.2 * t20S!, flags: [...flags, "disturbed"] }));
    expect(leaksOf(clean, flagged)).toEqual([]);
  });

  it("is a level all the same where the band says something of its decay alone", () => {
    const flagged = withBand(3, 100, ({ levelDb, flags }) => ({
      levelDb: levelDb! + 3,
      flags: [...flags, "disturbed"],
    }));
    expect(leaksOf(clean, flagged)).toHaveLength(1);
  });

  it("is excused by a warning only where its words withdraw such figures", () => {
    const louder = withBand(3, 100, ({ levelDb }) => ({ levelDb: levelDb! + 3 }));
    const warned = (code: string, message: string): Results => ({
      ...louder,
      findings: [
        ...louder.findings,
        {
          ...{ code, message, severity: "warning", topic: "recording", remedy: null, value: null, uncertainty: null },
          ...{ unit: null, limit: null, source: null, audibility: null, atS: null, bandHz: null, rangeHz: null },
          ...{ monitors: [], channels: [], recordings: [] },
        },
      ],
    });
    expect(leaksOf(clean, warned("distorted", "It was driven too hard."))).toHaveLength(1);
    expect(leaksOf(clean, warned("hum", "The levels are squeezed with it and not to be trusted."))).toHaveLength(1);
    expect(leaksOf(clean, warned("distorted", "The levels are squeezed with it and not to be trusted."))).toEqual([]);
  });

  it("is no gain that all levels share, where the gain was turned on purpose", () => {
    const softer: Results = {
      ...clean,
      measurements: clean.measurements.map((one) => ({
        ...one,
        bands: one.bands.map((band) => ({ ...band, levelDb: band.levelDb === null ? null : band.levelDb - 6 })),
      })),
    };
    expect(leaksOf(clean, softer).length).toBeGreaterThan(20);
    expect(leaksOf(clean, softer, true)).toEqual([]);
  });
});
