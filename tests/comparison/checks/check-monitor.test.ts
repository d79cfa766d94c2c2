import { describe, expect, it } from "vitest";
import { checkMonitor } from "../../../src/comparison/checks/check-monitor.js";
import { worst } from "../../../src/comparison/checks/worst.js";
import type { BandMetrics, Check, Measurement, MonitorResult, Reflection } from "../../../src/model.js";
import { nominalMeanTime } from "../../../src/standards/bs1116.js";
import { noiseRatingLevel, NOISE_RATING_OCTAVES_HZ } from "../../../src/standards/noise-rating.js";
import { knownMeasurement } from "../known-measurement.js";

type LeftRight = Pick<MonitorResult, "leftRight" | "leftRightReason">;
type BandLaw = (nominalHz: number) => Partial<BandMetrics>;

const VOLUME_M3 = 80;
const TM_S = nominalMeanTime(VOLUME_M3);
/** Sums and differences of values near 1. */
const ROUNDING = 1e-12;

const quiet = (rating: number, levelReference: "spl" | "dbfs" = "spl"): Measurement["background"] => ({
  levelReference,
  bands: NOISE_RATING_OCTAVES_HZ.map((nominalHz) => ({ nominalHz, levelDb: noiseRatingLevel(rating, nominalHz) })),
  aWeightedDb: null,
});
const reflection = (delayS: number, levelDb: number): Reflection => ({
  delayS,
  levelDb,
  pathDifferenceM: 343 * delayS,
  levelUncertaintyDb: 0.3,
  polarity: 1,
  firstNotchHz: 1 / (2 * delayS),
  close: delayS < 0.001,
});
/** A loudspeaker in a room that meets every limit, but for what is said. */
const side = (parts: Partial<Measurement> = {}, law: BandLaw = () => ({})): Measurement =>
  knownMeasurement({
    energyTime: { startS: 0, stepS: 1e-5, levelDb: [0] },
    reflections: [reflection(0.004, -14)],
    background: quiet(8),
    ...parts,
    bands: ({ nominalHz }) => ({ levelDb: -20, levelUncertaintyDb: 0.2, t30S: TM_S, ...law(nominalHz) }),
  });
const pair = (parts: Partial<NonNullable<MonitorResult["leftRight"]>> = {}): LeftRight => ({
  leftRight: {
    levelDb: 0.4,
    levelUncertaintyDb: 0.1,
    arrivalS: -20e-6,
    arrivalUncertaintyS: 1e-6,
    includesGain: false,
    samePolarity: true,
    bands: [50, 200, 250, 500, 1000, 2000, 2500].map((nominalHz) => ({
      nominalHz,
      differenceDb: 1,
      uncertaintyDb: 0.1,
    })),
    oneSided: [],
    phantom: null,
    ...parts,
  },
  leftRightReason: null,
});
const good = [side(), side({ channel: "R", id: "mains-R@mix" })];

function check(
  code: string,
  sides: readonly Measurement[] = good,
  leftRight: LeftRight = pair(),
  volumeM3: number | null = VOLUME_M3,
): Check {
  return checkMonitor(sides, leftRight, volumeM3).find((one) => one.code === code)!;
}

describe("A monitor that meets the room standards", () => {
  it("passes every check, each with source, limit and value", () => {
    const checks = checkMonitor(good, pair(), VOLUME_M3);
    expect(checks.map(({ code, channel }) => [code, channel])).toEqual([
      ["bs1116-response", "L"],
      ["ebu3276-response", "L"],
      ["bs1116-response", "R"],
      ["ebu3276-response", "R"],
      ["reverberation", null],
      ["reverberation-edges", null],
      ["early-reflections", "L"],
      ["early-reflections", "R"],
      ["left-right-match", null],
      ["left-right-arrival", null],
      ["background-noise-aim", null],
      ["background-noise", null],
    ]);
    for (const one of checks) {
      expect(one).toMatchObject({ pass: true, reason: null });
      expect(one.value).not.toBeNull();
      expect(one.source).toMatch(/BS\.1116-3|EBU Tech 3276/);
    }
  });

  it("is told advice only: every limit is remembered, disputed or could not be read in full", () => {
    for (const { source, advisory } of checkMonitor(good, pair(), VOLUME_M3)) {
      expect(advisory).toBe(true);
      expect(source).toMatch(/memory|disputed/);
    }
  });

  it("has nothing to check where it was not measured", () => {
    expect(checkMonitor([], pair(), VOLUME_M3)).toEqual([]);
  });
});

describe("The response mask", () => {
  it("names the band that lies furthest outside, and by how much", () => {
    const dull: BandLaw = (hz) => ({ levelDb: hz === 10_000 ? -30 : hz === 80 ? -14 : -20 });
    const ebu = check("ebu3276-response", [side({}, dull)]);
    const itu = check("bs1116-response", [side({}, dull)]);
    // At 10 kHz the lower limit is -3 - 3 lg 5 / lg 8 (EBU) and -3 - 4.5 lg 5 / lg 8 dB (ITU).
    const share = Math.log(5) / Math.log(8);
    expect(ebu).toMatchObject({ pass: false, bandHz: 10_000, channel: "L", advisory: true, unit: "dB" });
    expect(Math.abs(ebu.value! - (10 - 3 - 3 * share))).toBeLessThan(ROUNDING);
    expect(Math.abs(itu.value! - (10 - 3 - 4.5 * share))).toBeLessThan(ROUNDING);
  });

  it("does not ask the ITU for a lower limit in the bass that nobody could read", () => {
    const thin: BandLaw = (hz) => ({ levelDb: hz < 125 ? -40 : -20 });
    expect(check("bs1116-response", [side({}, thin)]).pass).toBe(true);
    expect(check("ebu3276-response", [side({}, thin)])).toMatchObject({ pass: false, value: 17 });
    expect(check("bs1116-response").limit).toMatch(/no lower limit under 250 Hz/);
    expect(check("bs1116-response").source).toMatch(/could not be read: none is applied/);
  });

  it("passes over bands that were not measured and counts them", () => {
    const short: BandLaw = (hz) => ({ levelDb: hz <= 63 ? null : -20 });
    expect(check("ebu3276-response", [side({}, short)])).toMatchObject({
      pass: true,
      reason: "2-of-26-bands-not-judged",
    });
  });

  it("cannot be laid on without the range that it hangs on", () => {
    const hole: BandLaw = (hz) => ({ levelDb: hz === 800 ? null : -20 });
    const result = check("bs1116-response", [side({}, hole)]);
    expect(result).toMatchObject({ value: null, pass: null, reason: "fit-range-not-measured" });
  });
});

describe("The reverberation mask", () => {
  const at =
    (bandHz: number, band: Partial<BandMetrics>): BandLaw =>
    (hz) =>
      hz === bandHz ? { decayUncertaintyS: U_S / 2, lateUncertaintyS: U_S / 2, ...band } : {};
  /** Expanded. */
  const U_S = 0.008;
  const both = (law: BandLaw): Measurement[] => [side({}, law), side({ channel: "R" }, law)];

  it("is broken by one band that rings, in seconds beyond its limit", () => {
    const result = check("reverberation", both(at(315, { t30S: TM_S + 0.12 })));
    expect(result).toMatchObject({ pass: false, bandHz: 315, unit: "s", advisory: true });
    expect(Math.abs(result.value! - 0.07)).toBeLessThan(ROUNDING);
  });

  it("is broken by a band that is too dry as well", () => {
    const result = check("reverberation", both(at(1000, { t30S: TM_S - 0.08 })));
    expect(Math.abs(result.value! - 0.03)).toBeLessThan(ROUNDING);
    expect(result.pass).toBe(false);
  });

  it("allows 0.3 s more at 63 Hz, as advice only", () => {
    const inside = check("reverberation-edges", both(at(63, { t30S: TM_S + 0.29 })));
    const outside = check("reverberation-edges", both(at(63, { t30S: TM_S + 0.31 })));
    const undecided = check("reverberation-edges", both(at(63, { t30S: TM_S + 0.305 })));
    expect([undecided.pass, undecided.reason]).toEqual([null, "within-uncertainty"]);
    expect([inside.pass, outside.pass, outside.advisory, outside.bandHz]).toEqual([true, false, true, 63]);
    expect(check("reverberation", both(at(63, { t30S: 9 }))).pass).toBe(true);
  });

  it("takes the mean of left and right, T20 where there is no T30, and the late decay behind a cliff", () => {
    const left = side({}, at(500, { t30S: null, t20S: TM_S + 0.08 }));
    const right = side({ channel: "R" }, at(500, { t30S: 9, lateS: TM_S + 0.06, flags: ["direct-dominated"] }));
    const result = check("reverberation", [left, right]);
    expect(result.bandHz).toBe(500);
    expect(Math.abs(result.value! - 0.02)).toBeLessThan(ROUNDING);
  });

  it("passes over bands that the filter limits or that have no time, and says how many", () => {
    const law: BandLaw = (hz) =>
      hz === 200 ? { t30S: 9, flags: ["filter-limited"] } : hz === 250 ? { t30S: null, flags: ["no-decay"] } : {};
    expect(check("reverberation", both(law))).toMatchObject({ pass: true, reason: "2-of-14-bands-not-judged" });
    expect(check("reverberation", [side({}, law), good[1]!]).reason).toBe("2-of-14-bands-not-judged");
    const none = check(
      "reverberation",
      both(() => ({ flags: ["filter-limited"] })),
    );
    expect(none).toMatchObject({ value: null, pass: null, reason: "no-band-could-be-judged" });
  });

  it("needs the room's volume", () => {
    for (const code of ["reverberation", "reverberation-edges"]) {
      expect(check(code, good, pair(), null)).toMatchObject({
        value: null,
        pass: null,
        reason: "no-volume",
        bandHz: null,
      });
    }
  });
});

describe("The limit on early reflections", () => {
  const of = (...reflections: Reflection[]): Check => check("early-reflections", [side({ reflections })]);

  it("holds the strongest within 15 ms against 10 dB under the direct sound", () => {
    expect(of(reflection(0.004, -14), reflection(0.009, -8.5))).toMatchObject({ value: -8.5, pass: false });
    expect(of(reflection(0.004, -10))).toMatchObject({ value: -10, pass: true });
    expect(of(reflection(0.004, -14), reflection(0.0151, -3))).toMatchObject({ value: -14, pass: true });
  });

  it("is kept where nothing stands out, and not to be told without an energy-time curve", () => {
    expect(of()).toMatchObject({ value: null, pass: true, reason: "none-stands-out" });
    const unknown = check("early-reflections", [side({ energyTime: null, reflections: [] })]);
    expect(unknown).toMatchObject({ value: null, pass: null, reason: "no-energy-time-curve" });
  });

  it("is left open by a peak so close that it may be the loudspeaker's own, unless another breaks it", () => {
    expect(of(reflection(0.0006, -7))).toMatchObject({ value: -7, pass: null, reason: "close-reflection-undecided" });
    expect(of(reflection(0.0006, -7), reflection(0.005, -9))).toMatchObject({ value: -9, pass: false });
  });
});

describe("Left against right", () => {
  const bands = (differenceDb: (hz: number) => number | null): LeftRight =>
    pair({
      bands: [200, 250, 1000, 2000, 2500].map((nominalHz) => ({
        nominalHz,
        differenceDb: differenceDb(nominalHz),
        uncertaintyDb: 0.1,
      })),
    });

  it("match within 2 dB in each third octave from 250 Hz to 2 kHz, whichever side is louder", () => {
    expect(
      check(
        "left-right-match",
        good,
        bands((hz) => (hz === 1000 ? -2.5 : 1)),
      ),
    ).toMatchObject({ value: 2.5, pass: false, bandHz: 1000 });
    expect(
      check(
        "left-right-match",
        good,
        bands((hz) => (hz === 200 || hz === 2500 ? 6 : 2)),
      ),
    ).toMatchObject({ value: 2, pass: true });
    expect(
      check(
        "left-right-match",
        good,
        bands((hz) => (hz === 250 ? null : 0)),
      ),
    ).toMatchObject({ pass: true, reason: "1-of-3-bands-not-judged" });
  });

  it("are not compared in level when the gain between two files is not known", () => {
    expect(check("left-right-match", good, pair({ includesGain: true }))).toMatchObject({
      value: null,
      pass: null,
      reason: "gain-not-fixed",
    });
  });

  it("arrive within 100 us, whichever is first, if one clock saw both", () => {
    expect(check("left-right-arrival", good, pair({ arrivalS: -130e-6 }))).toMatchObject({
      value: 130e-6,
      pass: false,
      unit: "s",
    });
    expect(check("left-right-arrival", good, pair({ arrivalS: 99e-6 })).pass).toBe(true);
    expect(check("left-right-arrival", good, pair({ arrivalS: null }))).toMatchObject({
      pass: null,
      reason: "no-common-clock",
    });
  });

  it("say why when there is one side only", () => {
    const one = { leftRight: null, leftRightReason: "one-channel" };
    for (const code of ["left-right-match", "left-right-arrival"]) {
      expect(check(code, [good[0]!], one)).toMatchObject({ value: null, pass: null, reason: "one-channel" });
    }
  });
});

describe("Background noise", () => {
  const noises = (...backgrounds: Measurement["background"][]): Measurement[] =>
    backgrounds.map((background) => side({ background }));

  it("is rated by the noisier measurement: NR10 aimed at, NR15 not to be exceeded", () => {
    const sides = noises(quiet(9), quiet(12));
    expect(check("background-noise-aim", sides)).toMatchObject({
      pass: false,
      reason: "includes-microphone-noise",
      unit: "NR",
    });
    expect(check("background-noise", sides)).toMatchObject({ pass: true, reason: null });
    // One rounding of a level.
    expect(check("background-noise", sides).value).toBeCloseTo(12, 10);
    expect(check("background-noise", noises(quiet(16))).pass).toBe(false);
  });

  it("cannot be rated without a calibrated level or without silence", () => {
    expect(check("background-noise", noises(quiet(3, "dbfs")))).toMatchObject({
      value: null,
      pass: null,
      reason: "not-calibrated",
    });
    expect(check("background-noise", noises(null))).toMatchObject({
      value: null,
      pass: null,
      reason: "no-silence-recorded",
    });
  });

  it("passes only with the octaves that it knows, and says so", () => {
    const deaf = quiet(8)!;
    const bands = deaf.bands.slice(2);
    expect(check("background-noise", noises({ ...deaf, bands })).reason).toBe("2-of-9-bands-not-judged");
  });
});

it("The worst of several bands breaks a limit whatever the unknown ones are", () => {
  const bands = [
    { bandHz: 100, value: null, uncertainty: null },
    { bandHz: 200, value: 4, uncertainty: 0.4 },
    { bandHz: 400, value: -1, uncertainty: 0.4 },
  ];
  expect(worst(bands, 3)).toEqual({ value: 4, pass: false, reason: "1-of-3-bands-not-judged", bandHz: 200 });
});

it("A limit broken by less than the expanded uncertainty, or by one not known, is neither kept nor broken", () => {
  const one = (uncertainty: number | null): ReturnType<typeof worst> =>
    worst([{ bandHz: 200, value: 4, uncertainty }], 3);
  expect(one(0.6)).toEqual({ value: 4, pass: null, reason: "within-uncertainty", bandHz: 200 });
  expect(one(null)).toMatchObject({ pass: null });
  expect(one(0.4)).toMatchObject({ pass: false });
});
