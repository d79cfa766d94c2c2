import { describe, expect, it } from "vitest";
import type { Finding, Reflection, TrustGain } from "../../src/model.js";
import { finding } from "../../src/schema/finding.js";
import { treatRoom } from "../../src/treatment/treat-room.js";
import { BANDS } from "../../src/translation/bands.js";
import { trustMap } from "../../src/translation/trust-map.js";
import type { Evidence } from "../../src/translation/trust/rules.js";
import { evidence, measurement, monitorResult } from "../translation/known-case.js";
import { resultsOf } from "./known-results.js";

const mend = (parts: Partial<Finding>): Finding =>
  finding({ code: "", severity: "warning", topic: "mend", message: "", monitors: ["mains"], ...parts });
const gain = (parts: Partial<Evidence>, trouble: Finding): TrustGain =>
  treatRoom(resultsOf(parts, [trouble])).problems[0]!.trust!;

/** Grades by the trust map's own rules, with the trouble and without it: what the gain must come to. */
const risen = (withIt: Partial<Evidence>, without: Partial<Evidence>): object[] => {
  const [from, to] = [trustMap(evidence(withIt)).bands, trustMap(evidence(without)).bands];
  const rank = ["blind", "care", "believe"];
  return from.flatMap(({ nominalHz, grade }, k) =>
    rank.indexOf(to[k]!.grade!) > rank.indexOf(grade!)
      ? [{ monitor: "mains", nominalHz, from: grade, to: to[k]!.grade }]
      : [],
  );
};

const reflection = (delayS: number, levelDb: number): Reflection => ({
  ...{ delayS, levelDb, pathDifferenceM: 343 * delayS, levelUncertaintyDb: 0.2 },
  ...{ polarity: 1, firstNotchHz: 1 / (2 * delayS), close: false },
});
const sides = (...all: Reflection[]): Pick<Evidence, "sides"> => ({ sides: [measurement({ reflections: all })] });
const early = mend({ code: "early-reflection", value: -5, limit: -10, atS: 0.001, channels: ["L"] });

describe("If a reflection were gone", () => {
  it("all third octaves rise that the trust map's own rules then believe", () => {
    const withIt = sides(reflection(0.001, -5));
    const found = gain(withIt, early);
    expect(found.bands).toEqual(risen(withIt, sides()));
    expect(found).toMatchObject({ codes: ["early-reflection"], rises: 10, toBelieve: 10, falls: 0 });
  });

  it("none rise that another reflection keeps down: those from its first notch up", () => {
    const other = reflection(0.00025, -8);
    const withIt = sides(reflection(0.001, -5), other);
    const found = gain(withIt, early);
    // From 1/(2 * 0.25 ms) = 2 kHz up the other holds.
    expect(found.bands).toEqual(risen(withIt, sides(other)));
    expect(found.bands.map(({ nominalHz }) => nominalHz)).toEqual([1000, 1250, 1600]);
  });

  it("a band that something else makes blind stays blind", () => {
    const spreadDb = BANDS.map(({ nominalHz }) => (nominalHz === 2000 ? 4 : 0.3));
    const withIt = { ...sides(reflection(0.001, -5)), spreadDb };
    expect(gain(withIt, early).bands).toEqual(risen(withIt, { ...sides(), spreadDb }));
    expect(gain(withIt, early).rises).toBe(9);
  });

  it("nothing is promised for a reflection that is not found again", () => {
    expect(gain(sides(reflection(0.001, -5)), { ...early, atS: 0.009 }).rises).toBe(0);
  });
});

describe("If the louder side were turned down", () => {
  const pair = (offDb: number): Evidence["result"] => {
    const { leftRight } = monitorResult();
    const bands = BANDS.map(({ nominalHz }, k) => ({
      nominalHz,
      differenceDb: offDb + (nominalHz === 1000 ? -2.5 : 0.4 * Math.sin(k)),
      uncertaintyDb: 0.1,
    }));
    return monitorResult({ leftRight: { ...leftRight!, bands } });
  };
  const louder = mend({ code: "left-right-level", value: 2.5, channels: ["L"] });

  it("grades change as the trust map's rules have it for the trimmed pair, up and down", () => {
    const found = gain({ result: pair(2.5) }, louder);
    expect(found.bands).toEqual(risen({ result: pair(2.5) }, { result: pair(0) }));
    expect(found.rises).toBeGreaterThan(5);
    // At 1 kHz the sides were alike by chance, and are not then.
    expect(found.falls).toBe(1);
  });
});

describe("If ringing were gone", () => {
  const ringing = mend({ code: "rings", bandHz: 50, rangeHz: [40, 63], value: 1.2, limit: 0.6 });
  const slow = (hz: readonly number[]): Partial<Evidence> => ({
    sides: [
      measurement({
        bands: measurement().bands.map((one) => (hz.includes(one.nominalHz) ? { ...one, t30S: 2 } : one)),
      }),
    ],
    deviationDb: BANDS.map(({ nominalHz }) => (hz.includes(nominalHz) ? 4 : 0)),
  });

  it("its bands rise, and no others", () => {
    const withIt = slow([40, 50, 63, 125]);
    expect(gain(withIt, ringing).bands).toEqual(risen(withIt, slow([125])));
    expect(gain(withIt, ringing).rises).toBe(3);
  });
});

describe("A trouble of which the trust map holds no reason", () => {
  it("promises nothing, and says so", () => {
    expect(gain({}, mend({ code: "flutter" }))).toEqual({ codes: [], rises: 0, toBelieve: 0, falls: 0, bands: [] });
  });

  it("is told without a trust map as well, in the order of what is heard", () => {
    const findings = [
      mend({ code: "flutter", audibility: 1 }),
      mend({ code: "too-live", audibility: 2, value: 1, limit: 0.3 }),
    ];
    const { problems } = treatRoom(resultsOf({}, findings, { translation: null }));
    expect(problems.map(({ finding: index, trust }) => [index, trust])).toEqual([
      [1, null],
      [0, null],
    ]);
  });
});

describe("Troubles", () => {
  it("stand in the order of the third octaves that would rise", () => {
    const withIt = { ...sides(reflection(0.001, -5)), spreadDb: BANDS.map(() => 0.3) };
    const flutter = mend({ code: "flutter", audibility: 9 });
    expect(treatRoom(resultsOf(withIt, [flutter, early])).problems.map(({ finding: index }) => index)).toEqual([1, 0]);
  });

  it("that two findings tell are treated once: a peak that rings", () => {
    const peak = mend({ code: "peak", bandHz: 50, rangeHz: [50, 63], value: 5, limit: 3 });
    const rings = mend({ code: "rings", bandHz: 50, rangeHz: [40, 63], value: 1, limit: 0.6 });
    const { problems } = treatRoom(resultsOf({}, [peak, rings]));
    expect(problems).toMatchObject([{ finding: 1, also: [0] }]);
    // At another frequency it is another trouble.
    const apart = treatRoom(resultsOf({}, [{ ...peak, bandHz: 100, rangeHz: [100, 100] }, rings]));
    expect(apart.problems).toHaveLength(2);
  });

  it("that only a repair mends are not told here", () => {
    const findings = [mend({ code: "ends-early" }), mend({ code: "distortion" }), mend({ code: "polarity-inverted" })];
    expect(treatRoom(resultsOf({}, findings)).problems).toEqual([]);
  });
});
