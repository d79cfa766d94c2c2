import { describe, expect, it } from "vitest";
import { compareResults } from "../../../src/comparison/changes/compare-results.js";
import { tellChanges } from "../../../src/findings/changes/tell-changes.js";
import type { DoubleSlopeResult, FlutterResult, Results } from "../../../src/model.js";
import type { ChangedQuantity } from "../../../src/schema/changes.js";
import { resultsFixture } from "../../report/results-fixture.js";

const fixture = resultsFixture();

function session(edit: (results: Results) => void): Results {
  const results = structuredClone(fixture);
  results.flutter = [];
  results.doubleSlopes = [];
  edit(results);
  return results;
}

function changes(before: Results, after: Results, quantity: string): ChangedQuantity[] {
  const { pairs } = compareResults(before, after, { placementM: 0, monitors: null });
  return pairs.find(({ id }) => id === "mains")!.quantities.filter((one) => one.quantity === quantity);
}

function told(before: Results, after: Results): string[] {
  return tellChanges(compareResults(before, after, { placementM: 0, monitors: null }))
    .filter(({ quantity }) => /flutter|Slope/.test(quantity))
    .map(({ topic, message }) => `${topic} ${message}`);
}

describe("A flutter between two walls", () => {
  const train = (measurement: string, more: Partial<FlutterResult> = {}): FlutterResult => ({
    ...{ measurement, periodS: 0.02, distanceM: 3.43, distanceUncertaintyM: 0.02, between: ["side walls"] },
    ...{ levelDb: -20, aboveDb: 14, t60S: 0.8, roundTripDb: 1.5, echoes: 20 },
    ...more,
  });
  const none = session(() => undefined);
  const bare = (more: Partial<FlutterResult> = {}) =>
    session((results) => (results.flutter = [train("mains-L@mix", more), train("mains-R@mix", more)]));

  it("that went is better, one that came worse, and it is told by the interval of its echoes", () => {
    const [gone] = changes(bare(), none, "flutterDb");
    expect(gone).toMatchObject({ before: 14, after: 6, missing: "after", change: "real", verdict: "better" });
    // Two sides, two measurements each, 20 echoes of 5.57 dB's scatter: 5.57 / sqrt(20) for each mean of one; k = 2.
    // The absent train is taken to be known as well as the present one.
    expect(gone!.uncertainty).toBeCloseTo((2 * (5.5698 / Math.sqrt(20)) * 2) / 2, 3);
    expect(told(bare(), none)[0]).toBe(
      "better mains: the flutter, echoes every 20.0 ms, is gone: its echoes stand out less, by at least 8.0 dB (+14.0 to at most +6.0 dB)",
    );
    expect(told(none, bare())[0]).toMatch(/^worse mains: the flutter, echoes every 20\.0 ms, has appeared/);
  });

  it("that barely stands out, or loses nearly too much to be one, may be there on both sides", () => {
    expect(changes(bare({ aboveDb: 9 }), none, "flutterDb")[0]).toMatchObject({ verdict: "cannot-tell" });
    const [lossy] = changes(bare({ roundTripDb: 5.9 }), none, "flutterDb");
    expect(lossy).toMatchObject({ needed: null, verdict: "cannot-tell" });
    expect(told(bare({ roundTripDb: 5.9 }), none)[0]).toMatch(/^unknown mains: .* was found only before/);
  });

  it("hidden by a stronger one between other walls has not gone for certain", () => {
    const [one] = changes(bare(), bare({ periodS: 0.03, distanceM: 5.1 }), "flutterDb");
    expect(one).toMatchObject({ needed: null, verdict: "cannot-tell" });
  });

  it("that stays is compared by its decay, as exactly as the scatter of its echoes lets it be read", () => {
    const [one] = changes(bare({ echoes: 60 }), bare({ t60S: 0.4, echoes: 60 }), "flutterT60S");
    // 1.5 and 3 dB an echo; a slope through 60 points of 5.57 dB: 5.57 / sqrt(60 * 3599 / 12) = 0.0415 dB.
    const [old, now] = [0.8 * (0.04152 / 1.5), 0.4 * (0.04152 / 3)];
    expect(one!.uncertainty).toBeCloseTo((2 * Math.hypot(old, now)) / Math.sqrt(2), 4);
    expect(one).toMatchObject({ before: 0.8, after: 0.4, change: "real" });
  });
});

describe("A second, slower decay, as through an open door", () => {
  const octaves = [500, 1000, 2000];
  const slope = (nominalHz: number): DoubleSlopeResult => ({
    ...{ nominalHz, measurements: 6, earlyS: 0.3, lateS: 1, earlyUncertaintyS: 0.01, lateUncertaintyS: 0.04 },
    ...{ apartDb: 15, turnS: 0.1, turnDb: -20 },
  });
  const room = (t30S: number, slopes: readonly DoubleSlopeResult[]) =>
    session((results) => {
      results.doubleSlopes = [...slopes];
      for (const { bands } of results.measurements) {
        for (const band of bands) {
          if (!octaves.includes(band.nominalHz)) continue;
          Object.assign(band, { t20S: 0.3, t30S, decayUncertaintyS: 0.008, flags: [] });
        }
      }
    });
  const open = room(0.55, octaves.map(slope));
  const closed = room(0.3, []);

  it("is gone when the door is shut, and has appeared when it is opened", () => {
    expect(changes(open, closed, "secondSlopeS")).toHaveLength(3);
    expect(changes(open, closed, "secondSlopeS")[0]).toMatchObject({ before: 1, after: 0.3, verdict: "better" });
    expect(told(open, closed)).toEqual([
      "better mains and nears: the second, slower decay in octaves at 500 Hz to 2 kHz is gone (up to 1.00 s for 60 dB)",
    ]);
    expect(told(closed, open)).toEqual([
      "worse mains and nears: the second, slower decay in octaves at 500 Hz to 2 kHz has appeared (up to 1.00 s for 60 dB)",
    ]);
  });

  it("that one fit found and the other did not is no change while the decay time stays", () => {
    const missed = room(0.54, []);
    expect(changes(open, missed, "secondSlopeS").map(({ change }) => change)).toEqual(octaves.map(() => "cannot-tell"));
    expect(told(open, missed)[0]).toMatch(/^unknown .*500 Hz, 1 kHz and 2 kHz was found only before.*may be there/);
  });

  it("that stays is compared by its time, with the uncertainty that the fit states", () => {
    const shorter = room(
      0.5,
      octaves.map((hz) => ({ ...slope(hz), lateS: 0.6, lateUncertaintyS: 0.03 })),
    );
    const [one] = changes(open, shorter, "lateSlopeS");
    expect(one!.uncertainty).toBeCloseTo(2 * Math.hypot(0.04, 0.03), 12);
    expect(one).toMatchObject({ before: 1, after: 0.6, missing: null, verdict: "better" });
  });

  it("is not compared with results of a version that did not look for it", () => {
    const old = structuredClone(open);
    delete old.doubleSlopes;
    delete old.flutter;
    expect(told(old, closed)).toEqual([]);
  });
});
