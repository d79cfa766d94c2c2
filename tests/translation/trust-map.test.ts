import { describe, expect, it } from "vitest";
import { BANDS } from "../../src/translation/bands.js";
import { LIMITS } from "../../src/translation/limits.js";
import { trustMap, type TrustBand } from "../../src/translation/trust-map.js";
import type { Evidence } from "../../src/translation/trust/rules.js";
import { band, evidence, measurement, monitorResult } from "./known-case.js";
import { at } from "./known-curves.js";

const graded = (parts: Partial<Evidence>): readonly TrustBand[] => trustMap(evidence(parts)).bands;
const gradesAt = (parts: Partial<Evidence>, ...hz: number[]): (string | null)[] =>
  hz.map((one) => graded(parts)[at(one)]!.grade);
const codesAt = (parts: Partial<Evidence>, hz: number): string[] =>
  graded(parts)[at(hz)]!.reasons.map(({ code }) => code);
const bump = (value: number, ...hz: number[]): number[] =>
  BANDS.map(({ nominalHz }) => (hz.includes(nominalHz) ? value : 0));

describe("A monitor with a target of its own", () => {
  it("is believed where it keeps to that, though what the session calls neutral is another curve", () => {
    expect(gradesAt({ deviationDb: bump(4, 8000), fromTargetDb: bump(0) }, 8000)).toEqual(["believe"]);
    expect(codesAt({ deviationDb: bump(0), fromTargetDb: bump(4, 8000) }, 8000)).toEqual(["deviation-peak"]);
  });

  it("is not told to keep to it where the target says nothing, and that is said", () => {
    const parts = { deviationDb: bump(4, 8000), fromTargetDb: bump(0).map((level, k) => (k > 20 ? null : level)) };
    expect(codesAt(parts, 8000)).toEqual([]);
    expect(trustMap(evidence(parts)).notJudged).toEqual([{ what: "deviation", reason: "target-does-not-say" }]);
  });
});

describe("A monitor that is neutral, even, dry and well measured", () => {
  it("is believed in every third octave from 25 Hz to 16 kHz", () => {
    const bands = graded({});
    expect(bands.map(({ nominalHz }) => nominalHz)).toEqual(BANDS.map(({ nominalHz }) => nominalHz));
    expect(bands).toHaveLength(29);
    for (const one of bands) expect(one).toMatchObject({ grade: "believe", reasons: [] });
  });

  it("is believed nowhere where it was not measured, and blind nowhere either", () => {
    const deviationDb = BANDS.map(({ nominalHz }) => (nominalHz < 40 ? null : 0));
    const [lowest] = graded({ deviationDb });
    expect(lowest).toMatchObject({ grade: null, reasons: [{ code: "not-measured", value: null }] });
    expect(gradesAt({ deviationDb }, 40)).toEqual(["believe"]);
  });
});

describe("A deviation from neutral", () => {
  /** Toole and Olive 1988 as restated: 2.5 dB in one third octave; beyond 6 dB blind, a choice of ours. */
  it.each([
    [2.4, "believe"],
    [2.6, "care"],
    [5.9, "care"],
    [6.1, "blind"],
    [-4.8, "believe"],
    [-5.2, "care"],
    [-9.9, "care"],
    [-10.1, "blind"],
  ])("of %d dB in one band: %s", (value, grade) => {
    expect(gradesAt({ deviationDb: bump(value, 1000) }, 800, 1000, 1250)).toEqual(["believe", grade, "believe"]);
  });

  it("counts sooner when it is an octave wide: from 1.73 dB, a dip from twice that", () => {
    const wide = [800, 1000, 1250];
    expect(gradesAt({ deviationDb: bump(1.8, ...wide) }, ...wide)).toEqual(["care", "care", "care"]);
    expect(gradesAt({ deviationDb: bump(1.6, ...wide) }, ...wide)).toEqual(["believe", "believe", "believe"]);
    expect(gradesAt({ deviationDb: bump(-3.6, ...wide) }, ...wide)).toEqual(["care", "care", "care"]);
    expect(gradesAt({ deviationDb: bump(-3.3, ...wide) }, ...wide)).toEqual(["believe", "believe", "believe"]);
  });

  it("tells its value, the limit that it crossed and the unit", () => {
    const [peak] = graded({ deviationDb: bump(7, 1000) })[at(1000)]!.reasons;
    expect(peak).toEqual({ code: "deviation-peak", grade: "blind", value: 7, limit: 6, unit: "dB" });
    const [dip] = graded({ deviationDb: bump(-12, 1000) })[at(1000)]!.reasons;
    expect(dip).toEqual({ code: "deviation-dip", grade: "blind", value: -12, limit: -10, unit: "dB" });
  });
});

describe("Left against right", () => {
  const pair = (differenceDb: number, includesGain = false, levelDb = 0): Evidence["result"] => {
    const { leftRight } = monitorResult();
    const bands = BANDS.map(({ nominalHz }) => ({ nominalHz, differenceDb, uncertaintyDb: 0.1 }));
    return monitorResult({ leftRight: { ...leftRight!, bands, includesGain, levelDb } });
  };

  it("may differ by more below 250 Hz than above", () => {
    expect(gradesAt({ result: pair(2.5) }, 200, 250)).toEqual(["believe", "care"]);
    expect(gradesAt({ result: pair(-4.5) }, 200, 250)).toEqual(["care", "blind"]);
    expect(gradesAt({ result: pair(6.5) }, 200, 250)).toEqual(["blind", "blind"]);
  });

  it("is not blamed for the gain of two recordings", () => {
    expect(gradesAt({ result: pair(6.5, true, 6.5) }, 200, 250)).toEqual(["believe", "believe"]);
  });

  it("is said not to be judged where there is one channel only", () => {
    const result = monitorResult({ leftRight: null, leftRightReason: "one-channel" });
    expect(trustMap(evidence({ result })).notJudged).toEqual([{ what: "left-right", reason: "one-channel" }]);
  });
});

describe("Ringing", () => {
  const decaying = (parts: Parameters<typeof band>[1]): Pick<Evidence, "sides"> => ({
    sides: [measurement({ bands: BANDS.map(({ nominalHz }) => band(nominalHz, nominalHz === 63 ? parts : {})) })],
  });
  const ringing = (timeS: number, flags: string[] = []): Pick<Evidence, "sides"> => decaying({ t30S: timeS, flags });

  /** 0.51 s at 63 Hz is not heard, Fazenda et al. 2015. 2.5 dB stand out. */
  it("counts only where the band stands out as well", () => {
    expect(gradesAt({ ...ringing(1.5), deviationDb: bump(2.4, 63) }, 63)).toEqual(["believe"]);
    expect(codesAt({ ...ringing(0.6), deviationDb: bump(3, 63) }, 63)).toEqual(["deviation-peak", "ringing"]);
    expect(gradesAt({ ...ringing(0.6), deviationDb: bump(3, 63) }, 63)).toEqual(["care"]);
    expect(gradesAt({ ...ringing(1.03), deviationDb: bump(3, 63) }, 63)).toEqual(["blind"]);
    expect(codesAt({ ...ringing(0.5), deviationDb: bump(3, 63) }, 63)).toEqual(["deviation-peak"]);
  });

  it("is not read from a band that rings itself", () => {
    expect(codesAt({ ...ringing(1.5, ["filter-limited"]), deviationDb: bump(3, 63) }, 63)).toEqual(["deviation-peak"]);
  });

  it("is not read from 20 dB of a decay that is not straight, but from 30 dB of it or from 20 dB of a straight one", () => {
    const from20dB = (flags: string[]): Pick<Evidence, "sides"> => decaying({ t30S: null, t20S: 1.5, flags });
    const codes = (sides: Pick<Evidence, "sides">): string[] => codesAt({ ...sides, deviationDb: bump(3, 63) }, 63);
    expect(codes(from20dB(["not-straight"]))).toEqual(["deviation-peak"]);
    expect(codes(from20dB([]))).toEqual(["deviation-peak", "ringing"]);
    expect(codes(ringing(1.5, ["not-straight"]))).toEqual(["deviation-peak", "ringing"]);
  });
});

describe("The end of a monitor", () => {
  const levelDb = BANDS.map((_, k) => Math.min(0, -2 + 4 * (k - 4)));

  it("is believed down to -6 dB, blind below -10 dB, and told once", () => {
    // 63 Hz -2 dB, 50 Hz -6, 40 Hz -10, 31.5 Hz -14.
    expect(gradesAt({ levelDb, deviationDb: levelDb.map((level) => level / 2) }, 31.5, 63)).toEqual([
      "blind",
      "believe",
    ]);
    expect(codesAt({ levelDb, deviationDb: levelDb }, 31.5)).toEqual(["extension"]);
    expect(codesAt({ levelDb, deviationDb: levelDb }, 40)).toEqual(["extension"]);
  });

  it("is not a hole with more below it", () => {
    const hole = BANDS.map(({ nominalHz }) => (nominalHz === 63 ? -12 : 0));
    expect(codesAt({ levelDb: hole, deviationDb: hole }, 63)).toEqual(["deviation-dip"]);
  });
});

describe("Other reasons", () => {
  it.each([
    ["spread", { spreadDb: bump(1.6, 400) }, 400, "care"],
    ["spread", { spreadDb: bump(3.1, 400) }, 400, "blind"],
    ["audibility", { audibleDb: BANDS.map(() => 9) }, 400, "care"],
    ["audibility", { audibleDb: BANDS.map(() => -1) }, 400, "blind"],
    ["uncertainty", { uncertaintyDb: BANDS.map(() => 0.8) }, 400, "care"],
    ["uncertainty", { uncertaintyDb: BANDS.map(() => 1.6) }, 400, "blind"],
    ["uncertainty", { uncertaintyDb: BANDS.map(({ nominalHz }) => (nominalHz === 400 ? null : 0.1)) }, 400, "blind"],
  ])("%s beyond its limit", (code, parts, hz, grade) => {
    const [reason, ...more] = graded(parts)[at(hz)]!.reasons;
    expect(reason).toMatchObject({ code, grade });
    expect(more).toEqual([]);
  });

  it("one place only: care above 2 kHz, nothing below", () => {
    const parts = { around: [[measurement()]], spreadDb: BANDS.map(() => null) };
    expect(gradesAt(parts, 2000, 2500, 16_000)).toEqual(["believe", "care", "care"]);
    expect(codesAt(parts, 2500)).toEqual(["one-place"]);
    expect(trustMap(evidence(parts)).notJudged).toContainEqual({ what: "spread", reason: "one-place" });
  });

  it("distortion below 200 Hz, by the worst in the band", () => {
    const thd = (percent: number): Pick<Evidence, "sides"> => ({
      sides: [measurement({ distortion: { frequencyHz: [60, 500], harmonicsDb: {}, thdPercent: [percent, percent] } })],
    });
    expect(gradesAt(thd(11), 50, 63, 500)).toEqual(["believe", "care", "believe"]);
    expect(gradesAt(thd(31), 63)).toEqual(["blind"]);
  });

  it("an early reflection: care from 1 to 8 kHz, from its first notch up, never blind", () => {
    const reflection = (delayS: number, levelDb: number): Pick<Evidence, "sides"> => {
      const parts = { pathDifferenceM: 343 * delayS, levelUncertaintyDb: 0.3, polarity: 1 as const, close: false };
      return { sides: [measurement({ reflections: [{ delayS, levelDb, firstNotchHz: 0.5 / delayS, ...parts }] })] };
    };
    expect(gradesAt(reflection(0.001, -5), 800, 1000, 8000, 10_000)).toEqual(["believe", "care", "care", "believe"]);
    expect(gradesAt(reflection(0.0001, -1), 4000, 5000)).toEqual(["believe", "care"]);
    // 10 dB under the direct sound: ITU-R BS.1116-3 and EBU Tech 3276, from memory.
    expect(gradesAt(reflection(0.001, -9.9), 1000)).toEqual(["care"]);
    expect(gradesAt(reflection(0.001, -10.1), 1000)).toEqual(["believe"]);
    expect(gradesAt(reflection(0.016, -1), 1000)).toEqual(["believe"]);
  });

  it("the worst of several decides, and all are told", () => {
    const parts = { deviationDb: bump(3, 400), spreadDb: bump(4, 400) };
    expect(gradesAt(parts, 400)).toEqual(["blind"]);
    expect(codesAt(parts, 400)).toEqual(["deviation-peak", "spread"]);
  });
});

it("every limit has its source", () => {
  for (const { source, label } of Object.values(LIMITS)) {
    expect(source.length).toBeGreaterThan(10);
    expect(["measured", "literature", "choice"]).toContain(label);
  }
});
