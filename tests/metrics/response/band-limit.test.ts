import { describe, expect, it } from "vitest";
import { logPower } from "../../../src/dsp/log-power.js";
import { type BandLimit, bandLimit } from "../../../src/metrics/response/band-limit.js";

const BIN_HZ = 2;
const ended = (levelDb: (hz: number) => number, toHz = 20_000): BandLimit | null =>
  bandLimit(
    logPower(
      Float64Array.from({ length: 12_001 }, (_, k) => 10 ** (levelDb(k * BIN_HZ) / 10)),
      BIN_HZ,
    ),
    [20, toHz],
  );
/** Butterworth low-pass of so many orders. */
const lowPass = (edgeHz: number, order: number) => (hz: number) => -10 * Math.log10(1 + (hz / edgeHz) ** (2 * order));

describe("A response that breaks off", () => {
  it.each([7000, 16_000])("at %d Hz is told to a twenty-fourth of an octave", (edgeHz) => {
    const found = ended((hz) => (hz < edgeHz ? 0 : -60))!;
    expect(found.isCliff).toBe(true);
    // The twelfth of an octave between both sides holds the edge.
    expect(found.hz).toBeGreaterThan(edgeHz * 2 ** (-1 / 12) * 0.99);
    expect(found.hz).toBeLessThan(edgeHz * 2 ** (1 / 24));
    expect(found.dropDb).toBeCloseTo(60, 0);
  });

  it("is none behind which the level comes back, as behind a reflection's dip", () => {
    expect(ended((hz) => (hz > 6000 && hz < 7500 ? -60 : 0))).toBeNull();
  });

  it("is none when the sweep itself ended there", () => {
    expect(ended((hz) => (hz < 12_000 ? 0 : -60), 12_000)).toBeNull();
  });
});

describe("A response that falls as loudspeakers do", () => {
  it("ends nowhere with 48 dB per octave from 11 kHz", () => {
    expect(ended(lowPass(11_000, 8))).toBeNull();
  });

  it("wants its tweeter with 24 dB per octave from 2 kHz", () => {
    const found = ended(lowPass(2000, 4))!;
    expect(found.isCliff).toBe(false);
    // Down 10 dB in a sixth of an octave: 10 lg(1 + (f / 2000)^8) = 10 at 2630 Hz, at its upper end.
    expect(Math.abs(found.hz / 2630 - 1)).toBeLessThan(0.1);
  });

  it("is dull, and no more, with 10 dB less treble", () => {
    expect(ended((hz) => (-10 * hz ** 2) / (hz ** 2 + 3000 ** 2))).toBeNull();
  });
});
