import { describe, expect, it } from "vitest";
import type { BandCurve } from "../../src/comparison/band-curve.js";
import { extension } from "../../src/comparison/extension.js";
import { THIRD_OCTAVES } from "../../src/standards/iec61260.js";

const bands = THIRD_OCTAVES.filter(({ exactHz }) => exactHz > 22 && exactHz < 18_000);

function curve(level: (exactHz: number) => number): Pick<BandCurve, "nominalHz" | "exactHz" | "levelDb"> {
  return {
    nominalHz: bands.map(({ nominalHz }) => nominalHz),
    exactHz: bands.map(({ exactHz }) => exactHz),
    levelDb: bands.map(({ exactHz }) => level(exactHz)),
  };
}

/** Falls by 24 dB per octave under a corner, in straight lines on log frequency. */
const falling = (cornerHz: number) => (hz: number) => 24 * Math.min(0, Math.log2(hz / cornerHz));

describe("the reach of a monitor", () => {
  it("is where its third-octave curve crosses the limits on the way down", () => {
    const result = extension(curve(falling(50)))!;
    // A straight line: f = 50 * 2^(-limit / 24). The band under the corner at 50.1 Hz bends within a third of an octave.
    expect(result.minus6Hz! / (50 * 2 ** (-6 / 24))).toBeCloseTo(1, 2);
    expect(result.minus10Hz! / (50 * 2 ** (-10 / 24))).toBeCloseTo(1, 2);
    expect(result.flags).toEqual([]);
  });

  it("counts over a dip one third octave wide, and names it", () => {
    const dipped = curve((hz) => (Math.abs(hz - 79.4) < 1 ? -15 : falling(40)(hz)));
    const result = extension(dipped)!;
    expect(result.dipsHz).toEqual([80]);
    expect(result.minus10Hz! / (40 * 2 ** (-10 / 24))).toBeCloseTo(1, 2);
  });

  it("names a dip that was passed over for the smaller limits only, too", () => {
    const result = extension(curve((hz) => (Math.abs(hz - 79.4) < 1 ? -9 : 0)))!;
    expect(result.dipsHz).toEqual([80]);
  });

  it("ends at a hole two thirds of an octave wide", () => {
    const hole = curve((hz) => (hz > 60 && hz < 85 ? -15 : 0));
    expect(hole.levelDb.filter((levelDb) => levelDb === -15)).toHaveLength(2);
    // Between 100 Hz at 0 dB and 80 Hz at -15 dB.
    expect(extension(hole)!.minus10Hz).toBeGreaterThan(79);
    expect(extension(hole)!.minus10Hz).toBeLessThan(100);
  });

  it("ends where every second band dips: no more than one dip is passed over for each octave walked", () => {
    // 160, 100, 63 and 40 Hz lie 20 dB low; the lowest band that stands at all is at 25 Hz.
    const comb = extension(
      curve((hz) => ([158.5, 100, 63.1, 39.8].some((dip) => Math.abs(hz / dip - 1) < 0.01) ? -20 : 0)),
    )!;
    expect(comb.dipsHz).toEqual([160]);
    // Between 125 Hz at 0 dB and 100 Hz at -20 dB.
    expect(comb.minus6Hz).toBeGreaterThan(100);
    expect(comb.minus6Hz).toBeLessThan(126);
  });

  it("goes on over dips an octave apart", () => {
    const dipped = curve((hz) =>
      Math.abs(hz / 125.9 - 1) < 0.01 || Math.abs(hz / 63.1 - 1) < 0.01 ? -20 : falling(40)(hz),
    );
    const result = extension(dipped)!;
    expect(result.dipsHz).toEqual([63, 125]);
    // Straight lines between bands bend under the corner within a third of an octave.
    expect(result.minus10Hz! / (40 * 2 ** (-10 / 24))).toBeCloseTo(1, 2);
  });

  it("is below the range where the lowest band still stands, and said so", () => {
    const result = extension(curve(() => 0))!;
    expect(result.minus3Hz).toBeNull();
    expect(result.flags).toEqual(["minus3-below-range", "minus6-below-range", "minus10-below-range"]);
  });

  it("is not stated for a loudspeaker that does not reach 200 Hz", () => {
    const phone = extension(curve(falling(500)))!;
    expect(phone.minus3Hz).toBeNull();
    expect(phone.flags).toContain("minus3-not-met-at-200");
  });
});
