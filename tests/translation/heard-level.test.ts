import { describe, expect, it } from "vitest";
import { frequencyGrid } from "../../src/dsp/frequency-grid.js";
import type { Measurement } from "../../src/model.js";
import { BANDS } from "../../src/translation/bands.js";
import { deviations } from "../../src/translation/deviations.js";
import { heardLevel } from "../../src/translation/heard-level.js";
import { band, measurement } from "./known-case.js";
import { at } from "./known-curves.js";

/** Steady state and tone window of one side, each flat. */
function side(steadyDb: number, toneDb: number, parts: Partial<Measurement> = {}): Measurement {
  const frequencyHz = Array.from(frequencyGrid());
  const one = measurement();
  return {
    ...one,
    response: { ...one.response, frequencyHz, toneDb: frequencyHz.map(() => toneDb) },
    bands: BANDS.map(({ nominalHz }) => band(nominalHz, { levelDb: steadyDb })),
    ...parts,
  };
}

const alone = (...sides: Measurement[]): Parameters<typeof heardLevel>[0] => ({
  sides,
  phantom: null,
  around: [sides],
});

describe("The level heard as tone", () => {
  it("is the steady state up to 200 Hz, the tone window from 500 Hz up, and rises from one to the other between", () => {
    const { levelDb } = heardLevel(alone(side(0, -2)));
    for (const hz of [25, 63, 200]) expect(levelDb[at(hz)]).toBeCloseTo(0, 9);
    for (const hz of [500, 1000, 16_000]) expect(levelDb[at(hz)]).toBeCloseTo(-2, 9);
    const between = [250, 315, 400].map((hz) => levelDb[at(hz)]!);
    expect(between).toEqual([...between].sort((a, b) => b - a));
    expect(between.every((level) => level < 0 && level > -2)).toBe(true);
  });

  it("is the energy mean of the sides", () => {
    const { levelDb, uncertaintyDb } = heardLevel(alone(side(0, 0), side(-200, -200)));
    // Half the power.
    expect(levelDb[at(63)]).toBeCloseTo(-3.0103, 4);
    // The silent side adds nothing to what is not known of the other.
    expect(uncertaintyDb[at(63)]).toBeCloseTo(0.1, 6);
  });

  it("is that of the phantom centre below 300 Hz: 6.02 dB less, where two equal sides are in step, is as loud as either", () => {
    const phantom = side(6.0206 - 1.5, 0, { channel: "both", derived: true });
    const { levelDb } = heardLevel({ ...alone(side(0, 0), side(0, 0)), phantom });
    for (const hz of [25, 63, 250]) expect(levelDb[at(hz)]).toBeCloseTo(-1.5, 4);
    expect(levelDb[at(315)]).toBeCloseTo(0, 9);
  });

  it("is above 2 kHz the energy mean over three places, with their spread", () => {
    const places = [0, 2, 4].map((level) => [side(level, level)]);
    const { levelDb, spreadDb, uncertaintyDb } = heardLevel({ sides: places[0]!, phantom: null, around: places });
    expect(levelDb[at(2000)]).toBeCloseTo(0, 9);
    const mean = 10 * Math.log10((1 + 10 ** 0.2 + 10 ** 0.4) / 3);
    expect(levelDb[at(2500)]).toBeCloseTo(mean, 9);
    // Of 0, 2 and 4 with n - 1.
    expect(spreadDb[at(63)]).toBeCloseTo(2, 9);
    expect(uncertaintyDb[at(2500)]).toBeCloseTo(Math.hypot(0.1, 2 / Math.sqrt(3)), 9);
  });

  it("has no spread with two places, and is then that of the mix position", () => {
    const places = [0, 6].map((level) => [side(level, level)]);
    const { levelDb, spreadDb } = heardLevel({ sides: places[0]!, phantom: null, around: places });
    expect(levelDb[at(4000)]).toBeCloseTo(0, 9);
    expect(spreadDb[at(4000)]).toBeNull();
  });

  it("is not known where nothing was measured", () => {
    const { levelDb } = heardLevel({ sides: [], phantom: null, around: [] });
    expect(levelDb.every((level) => level === null)).toBe(true);
  });
});

describe("The deviation from the reference", () => {
  const tilt = { id: "tilt", source: "", levelDb: (hz: number) => -Math.log2(hz / 1000) };
  const uncertaintyDb = BANDS.map(() => 0.1);

  it("is zero for a monitor that has the reference's shape at any level", () => {
    const levelDb = BANDS.map(({ nominalHz }) => tilt.levelDb(nominalHz) - 23);
    for (const value of deviations({ levelDb, uncertaintyDb }, tilt).deviationDb) expect(value).toBeCloseTo(0, 9);
  });

  it("is aligned over 200 Hz to 4 kHz: bass alone does not move the rest", () => {
    const levelDb = BANDS.map(({ nominalHz }) => tilt.levelDb(nominalHz) + (nominalHz < 200 ? 5 : 0));
    const { deviationDb } = deviations({ levelDb, uncertaintyDb }, tilt);
    expect(deviationDb[at(160)]).toBeCloseTo(5, 9);
    expect(deviationDb[at(200)]).toBeCloseTo(0, 9);
  });

  it("is not known, with the reason, where a band of the alignment was not measured", () => {
    const levelDb = BANDS.map(({ nominalHz }) => (nominalHz === 1000 ? null : 0));
    const result = deviations({ levelDb, uncertaintyDb }, tilt);
    expect(result.reason).toBe("alignment-range-not-measured");
    expect(result.deviationDb.every((value) => value === null)).toBe(true);
  });
});
