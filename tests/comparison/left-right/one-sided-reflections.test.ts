import { describe, expect, it } from "vitest";
import { oneSidedReflections } from "../../../src/comparison/left-right/one-sided-reflections.js";
import type { ChannelName, EnergyTime, Measurement, Reflection } from "../../../src/model.js";
import { knownMeasurement } from "../known-measurement.js";

function reflection(delayS: number, levelDb: number, levelUncertaintyDb = 0.5): Reflection {
  return {
    delayS,
    pathDifferenceM: 343 * delayS,
    levelDb,
    levelUncertaintyDb,
    polarity: 1,
    firstNotchHz: 1 / (2 * delayS),
    close: delayS < 0.001,
  };
}

/** The curve of a side that is at -40 dB but for peaks one step wide. */
function energyTime(peaks: readonly (readonly [delayS: number, levelDb: number])[]): EnergyTime {
  const levelDb = new Array<number>(1300).fill(-40);
  for (const [delayS, peakDb] of [[0, 0], ...peaks] as const) levelDb[Math.round((delayS + 0.005) / 0.00005)] = peakDb;
  return { startS: -0.005, stepS: 0.00005, levelDb };
}

function side(channel: ChannelName, listed: readonly Reflection[], curve: EnergyTime | null): Measurement {
  return knownMeasurement({ channel, reflections: [...listed], energyTime: curve });
}

const wall = reflection(0.004, -9);
const withWall = side("L", [wall], energyTime([[0.004, -9]]));

describe("an early reflection", () => {
  it("belongs to one side when the other is 6 dB and the uncertainty lower there", () => {
    const bare = side("R", [], energyTime([]));
    expect(oneSidedReflections({ left: withWall, right: bare })).toEqual([
      { channel: "L", delayS: 0.004, levelDb: -9, levelUncertaintyDb: 0.5, otherLevelDb: -40 },
    ]);
    // 6 + 2 * 0.5 dB.
    const level = (otherDb: number): number =>
      oneSidedReflections({ left: withWall, right: side("R", [], energyTime([[0.0043, otherDb]])) }).length;
    expect(level(-16)).toBe(1);
    expect(level(-15.9)).toBe(0);
  });

  it("is not missing on a side that has it but did not list it", () => {
    expect(oneSidedReflections({ left: withWall, right: side("R", [], energyTime([[0.0045, -12]])) })).toEqual([]);
  });

  it("is missing on a side where it comes more than 0.5 ms apart, and so is that one here", () => {
    const later = side("R", [reflection(0.0052, -9)], energyTime([[0.0052, -9]]));
    const found = oneSidedReflections({ left: withWall, right: later });
    expect(found.map(({ channel, delayS }) => [channel, delayS])).toEqual([
      ["L", 0.004],
      ["R", 0.0052],
    ]);
  });

  it("that is weak or late is the room's", () => {
    const left = side("L", [reflection(0.004, -15.1), reflection(0.0201, -5)], energyTime([]));
    expect(oneSidedReflections({ left, right: side("R", [], energyTime([])) })).toEqual([]);
  });

  it("cannot be called missing where the other side's sound over time is not known", () => {
    expect(oneSidedReflections({ left: withWall, right: side("R", [], null) })).toEqual([]);
    const short = { ...energyTime([]), levelDb: energyTime([]).levelDb.slice(0, 150) };
    expect(oneSidedReflections({ left: withWall, right: side("R", [], short) })).toEqual([]);
  });

  it("is missing where the other side is wholly silent", () => {
    const silent = { ...energyTime([]), levelDb: energyTime([]).levelDb.map(() => null) };
    const [found] = oneSidedReflections({ left: withWall, right: side("R", [], silent) });
    expect(found!.otherLevelDb).toBeNull();
  });
});
