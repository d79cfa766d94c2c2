import { describe, expect, it } from "vitest";
import { bandCurve } from "../../../src/comparison/band-curve.js";
import { type NamedCurve, shows } from "../../../src/comparison/monitors/shows.js";
import { knownMeasurement } from "../known-measurement.js";

type Level = (nominalHz: number) => number;

function monitor(
  id: string,
  level: Level,
  uncertaintyDb: (nominalHz: number) => number | null = () => 0.2,
): NamedCurve {
  const bands = ({ nominalHz }: { nominalHz: number }) => ({
    levelDb: level(nominalHz),
    levelUncertaintyDb: uncertaintyDb(nominalHz),
    noiseDb: -60,
  });
  return { id, curve: bandCurve([knownMeasurement({ bands })]) };
}

const flat = monitor("mains", () => 0);
/** The edge between two third octaves, by the exact midband of the upper one as a power of 10^0.1. */
const edgeBelow = (tenths: number): number => 10 ** ((tenths - 0.5) / 10);

describe("what one monitor shows and the other hides", () => {
  it("is nothing between equal monitors, however much louder one was played", () => {
    expect(
      shows(
        flat,
        monitor("nears", () => 0),
      ),
    ).toEqual([]);
    expect(
      shows(
        flat,
        monitor("nears", () => -9),
      ),
    ).toEqual([]);
  });

  it("is the reach below the end of the other, as one range", () => {
    const small = monitor("nears", (hz) => (hz <= 40 ? -20 : -3));
    // Only the alignment range counts for the offset: there the difference is 3 dB.
    const [found, ...others] = shows(flat, small);
    expect(others).toEqual([]);
    expect(found).toMatchObject({ monitor: "mains", other: "nears", kind: "reach" });
    expect(found!.differenceDb).toBeCloseTo(17, 9);
    // From the lower edge of 25 Hz (10^1.4) to the upper of 40 Hz, which is the lower of 50 Hz (10^1.7).
    expect(found!.fromHz).toBeCloseTo(edgeBelow(14), 9);
    expect(found!.toHz).toBeCloseTo(edgeBelow(17), 9);
    // Two curves and two alignments of 0.2 dB.
    expect(found!.uncertaintyDb).toBeCloseTo(0.4, 9);
  });

  it("is told the same whichever monitor comes first", () => {
    const small = monitor("nears", (hz) => (hz <= 40 ? -20 : hz === 500 ? 4 : 0));
    expect(shows(small, flat)).toEqual(shows(flat, small));
  });

  it("can be the reach above the end of the other", () => {
    const dull = monitor("old", (hz) => (hz >= 10_000 ? -15 : 0));
    expect(shows(flat, dull).map(({ kind, monitor, toHz }) => [kind, monitor, Math.round(toHz)])).toEqual([
      ["reach", "mains", 17_783],
    ]);
  });

  it("is a matter of level where the other goes on behind a hole", () => {
    const hole = monitor("nears", (hz) => (hz === 80 ? -15 : 0));
    expect(shows(flat, hole)).toMatchObject([{ kind: "level", monitor: "mains", differenceDb: 15 }]);
  });

  it("is a matter of level from 3 dB on, either way, and of each on its own", () => {
    const bumpy = monitor("nears", (hz) => (hz === 6300 ? 3.5 : hz === 8000 ? -3.5 : hz === 12_500 ? 2.9 : 0));
    expect(shows(flat, bumpy).map((one) => [one.kind, one.monitor, one.other])).toEqual([
      ["level", "nears", "mains"],
      ["level", "mains", "nears"],
    ]);
  });

  it("is not what neither of them shows", () => {
    const little = (depthDb: number) => (hz: number) => (hz <= 31.5 ? depthDb : 0);
    expect(shows(monitor("a", little(-12)), monitor("b", little(-40)))).toEqual([]);
    // Up to 10 dB under its own mean a monitor is still heard.
    expect(shows(monitor("a", little(-8)), monitor("b", little(-40)))).toMatchObject([{ kind: "reach" }]);
  });

  it("must be more than what is not known", () => {
    // U = 2 sqrt(2 * 1.6^2 + 2 * 1.6^2) = 6.4 dB.
    const unsure = (id: string, levelDb: number) =>
      monitor(
        id,
        (hz) => (hz > 6000 ? levelDb : 0),
        () => 1.6,
      );
    expect(shows(unsure("a", 0), unsure("b", -6.3))).toEqual([]);
    expect(shows(unsure("a", 0), unsure("b", -6.5))).toHaveLength(1);
    expect(
      shows(
        monitor(
          "a",
          () => 0,
          () => null,
        ),
        monitor("b", (hz) => (hz > 6000 ? -9 : 0)),
      ),
    ).toEqual([]);
  });

  it("may end under the noise: there the other lies no higher than it reads", () => {
    const hidden = (hz: number) => (hz <= 31.5 ? null : 0.2);
    const small = monitor("nears", (hz) => (hz <= 31.5 ? -59 : 0), hidden);
    const [found] = shows(flat, small);
    expect(found).toMatchObject({ kind: "reach", monitor: "mains" });
    // What the noise can be of it: 4.34 dB times 10^-0.1, with 0.2 dB thrice.
    expect(found!.uncertaintyDb).toBeCloseTo(Math.hypot((10 / Math.LN10) * 10 ** -0.1, 0.2 * Math.sqrt(3)), 9);
    // What is loud under the noise is the noise.
    const noisy = monitor("a", () => 0, hidden);
    expect(
      shows(
        noisy,
        monitor("b", (hz) => (hz <= 31.5 ? -30 : 0)),
      ),
    ).toEqual([]);
  });

  it("cannot be said where levels cannot be aligned", () => {
    const bass = monitor("sub", (hz) => (hz > 150 ? Number.NaN : 0));
    const part = {
      ...bass,
      curve: { ...bass.curve, levelDb: bass.curve.levelDb.map((db) => (Number.isNaN(db) ? null : db)) },
    };
    expect(shows(part, flat)).toEqual([]);
  });
});
