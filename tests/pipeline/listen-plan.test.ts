import { describe, expect, it } from "vitest";

import { listenPlan, type PlannedVersion } from "../../src/pipeline/listen-plan.js";
import { PLAYBACK_CLASSES } from "../../src/standards/playback-classes.js";
import { classLevelDb } from "../../src/standards/playback-classes/playback-class.js";
import { BANDS } from "../../src/translation/bands.js";
import { toneFilter } from "../../src/translation/listen/tone-filter.js";
import { levelOfTaps } from "../translation/level-of-taps.js";
import { translatedResults } from "./known-translation.js";

const RATE = 48_000;

const results = translatedResults([], {
  // Nowhere alike, so that neither can stand for the other, nor a sign be turned unseen.
  mains: (hz) => (hz <= 25 ? -40 : hz <= 31.5 ? -11 : hz <= 100 ? 3 : hz < 2000 ? 0 : -2),
  nears: (hz) => (hz <= 100 ? -4 : hz < 2000 ? 1 : 5),
});

function planned(on: string | null): (id: string) => PlannedVersion {
  const { versions } = listenPlan(results, new Map(), RATE, { room: false, on });
  return (id) => versions.find((one) => one.id === id)!;
}

const curveAt = ({ curve }: PlannedVersion, hz: number): number | null =>
  curve.find(({ nominalHz }) => nominalHz === hz)!.levelDb;

describe("A mix as a playback class makes it sound", () => {
  const version = planned(null);

  it.each(PLAYBACK_CLASSES)("follows the ordinary $id, neither the poor nor the good one", (device) => {
    const { curve, taps, filter } = version(`class:${device.id}`);
    expect(filter).toBe("tone");
    // From the class's own table; its height is that of the alignment, so levels are taken re 1 kHz.
    const wanted = (hz: number): number =>
      classLevelDb(device, hz, "typical")! - classLevelDb(device, 1000, "typical")!;
    const at1k = curve.find(({ nominalHz }) => nominalHz === 1000)!.levelDb!;
    for (const { nominalHz, levelDb } of curve) expect(levelDb! - at1k).toBeCloseTo(wanted(nominalHz), 9);
    for (const hz of [125, 8000]) {
      // The filter's own 0.1 dB at either frequency.
      const rendered = levelOfTaps(taps[0], hz, RATE) - levelOfTaps(taps[0], 1000, RATE);
      expect(Math.abs(rendered - wanted(hz))).toBeLessThan(0.2);
    }
  });
});

describe("A mix that is listened to on one of the monitors", () => {
  const version = planned("mains");

  it("is given what another monitor has over the one listened on", () => {
    // Through mains, which add their own, nears are then heard as they are.
    const nears = version("nears");
    expect([63, 1000, 8000].map((hz) => curveAt(nears, hz))).toEqual([-4 - 3, 1, 5 + 2]);
    // The filter's own 0.1 dB.
    expect(Math.abs(levelOfTaps(nears.taps[0], 63.1, RATE) + 7)).toBeLessThan(0.1);
    expect(Math.abs(levelOfTaps(nears.taps[0], 7943, RATE) - 7)).toBeLessThan(0.1);
  });

  it("is relieved of that monitor's own colour where a neutral system is to be heard", () => {
    const neutral = version("neutral");
    expect([63, 1000, 8000].map((hz) => curveAt(neutral, hz))).toEqual([-3, 0, 2]);
    expect(version("mains")).toMatchObject({ filter: "none", notes: [] });
  });

  it("is lifted by 12 dB at most where that monitor gives nothing, and this is said", () => {
    const neutral = version("neutral");
    // Of 11 dB that are missing at 31.5 Hz all, of 40 dB at 25 Hz no more than 12: a choice of ours.
    expect([25, 31.5].map((hz) => curveAt(neutral, hz))).toEqual([12, 11]);
    expect(neutral.notes).toEqual(["lifted by 12 dB and no more at 25 Hz, so less is heard there than there would be"]);
    // Below the lowest band the filter keeps to it: 12 dB, by its own 0.25 there.
    expect(Math.abs(levelOfTaps(neutral.taps[0], 20, RATE) - 12)).toBeLessThan(0.25);
    expect(planned("nears")("neutral").notes).toEqual([]);
  });
});

describe("A mix with the whole response of a room", () => {
  it("sounds neutral if the response is the curve that the session calls neutral", () => {
    const monitor = results.monitors.find(({ target }) => target?.id === results.translation.reference.id)!;
    const curve = BANDS.map(
      ({ nominalHz }) => monitor.target!.bands.find((one) => one.nominalHz === nominalHz)!.targetDb,
    );
    // As the fixture has it: 1 dB less from octave to octave.
    expect(curve[0]! - curve.at(-1)!).toBeGreaterThan(9);
    const arrivalSample = 4800;
    const samples = new Float64Array(RATE);
    samples.set(toneFilter(curve, RATE)!, arrivalSample);
    const impulses = new Map(
      ["L", "R"].map((side) => [`mains-${side}@mix`, { samples, sampleRate: RATE, arrivalSample }]),
    );
    const { versions } = listenPlan(results, impulses, RATE, { room: true, on: null });
    const { taps, filter } = versions.find(({ id }) => id === "mains")!;
    expect(filter).toBe("room");
    for (const { exactHz } of BANDS) {
      // A filter and its inverse, each to 0.25 dB at worst.
      for (const side of taps) expect(Math.abs(levelOfTaps(side, exactHz, RATE))).toBeLessThan(0.5);
    }
  });
});
