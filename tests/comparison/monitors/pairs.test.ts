import { describe, expect, it } from "vitest";
import { compareArrival } from "../../../src/comparison/monitors/compare-arrival.js";
import { compareDecay } from "../../../src/comparison/monitors/compare-decay.js";
import { compareExtension } from "../../../src/comparison/monitors/compare-extension.js";
import { roomBands } from "../../../src/comparison/monitors/room-bands.js";
import type { Place } from "../../../src/comparison/positions/places.js";
import type { BandMetrics, ChannelName, Measurement } from "../../../src/model.js";
import { knownMeasurement } from "../known-measurement.js";

describe("the reach of two monitors", () => {
  it("differs in octaves, positive when the first goes lower", () => {
    expect(compareExtension({ minus6Hz: 30 }, { minus6Hz: 60 })).toEqual({ aHz: 30, bHz: 60, gapOctaves: 1 });
    expect(compareExtension({ minus6Hz: 60 }, { minus6Hz: 30 }).gapOctaves).toBe(-1);
  });

  it("cannot be compared where one has no end", () => {
    expect(compareExtension({ minus6Hz: null }, { minus6Hz: 60 })).toEqual({ aHz: null, bHz: 60, gapOctaves: null });
    expect(compareExtension(null, null)).toEqual({ aHz: null, bHz: null, gapOctaves: null });
  });
});

describe("the arrival of two monitors", () => {
  const at = (channel: ChannelName, timeS: number | null): Measurement =>
    knownMeasurement({ channel, arrival: { inFileS: 1, timeS, polarity: 1 } });

  it("is first minus second, mean over the channels that both have", () => {
    const a = [at("L", 0.008), at("R", 0.009)];
    expect(compareArrival(a, [at("L", 0.004), at("R", 0.004)]).arrivalS).toBeCloseTo(0.0045, 15);
    expect(compareArrival(a, [at("R", 0.004)]).arrivalS).toBeCloseTo(0.005, 15);
  });

  it("cannot be told from recordings without the electrical signal, nor across channels", () => {
    const known = [at("L", 0.008), at("R", 0.009)];
    expect(compareArrival(known, [at("L", 0.004), at("R", null)])).toEqual({
      arrivalS: null,
      arrivalReason: "no-loopback",
    });
    expect(compareArrival(known, [at("both", 0.004)])).toEqual({ arrivalS: null, arrivalReason: "no-common-channel" });
  });
});

describe("the decay of one room on two monitors", () => {
  const with1k = (parts: Partial<BandMetrics>): Measurement =>
    knownMeasurement({ bands: ({ nominalHz }) => (nominalHz === 1000 ? parts : {}) });
  const at1k = (a: Measurement[], b: Measurement[]) => compareDecay(a, b).find(({ nominalHz }) => nominalHz === 1000)!;

  it("is first minus second, each the mean of its channels, as uncertain as both together", () => {
    const a = [with1k({ t30S: 0.3, decayUncertaintyS: 0.006 }), with1k({ t30S: 0.4, decayUncertaintyS: 0.008 })];
    const b = [with1k({ t20S: 0.25, decayUncertaintyS: 0.012 })];
    const found = at1k(a, b);
    expect(found.aS).toBeCloseTo(0.35, 12);
    expect(found.bS).toBe(0.25);
    expect(found.differenceS).toBeCloseTo(0.1, 12);
    // sqrt(6^2 + 8^2) / 2 = 5 ms against 12 ms.
    expect(found.uncertaintyS).toBeCloseTo(0.013, 12);
  });

  it("is read behind the direct sound where that makes a cliff", () => {
    const cliff = { t30S: 0.1, lateS: 0.3, lateUncertaintyS: 0.01, flags: ["direct-dominated"] };
    expect(at1k([with1k(cliff)], [with1k({ t30S: 0.3, decayUncertaintyS: 0 })])).toMatchObject({
      aS: 0.3,
      differenceS: 0,
      uncertaintyS: 0.01,
    });
  });

  it("is not known where a channel of either has none", () => {
    const one = with1k({ t30S: 0.3, decayUncertaintyS: 0.006 });
    expect(at1k([one, with1k({})], [one])).toMatchObject({ aS: null, bS: 0.3, differenceS: null, uncertaintyS: null });
  });
});

describe("two monitors over several places", () => {
  const place = (id: string, levelDb: number): Place => ({
    position: { id, kind: "room" },
    channels: [knownMeasurement({ bands: () => ({ levelDb, levelUncertaintyDb: 0 }) })],
  });

  it("differ by their means over the places that both have, as uncertain as both spreads make it", () => {
    const a = [place("p", 3), place("q", 5), place("only-a", 40)];
    const b = [place("only-b", -40), place("p", 0), place("q", 2)];
    const [band] = roomBands(a, b)!;
    expect(band!.differenceDb).toBeCloseTo(3, 12);
    // A spread of sqrt 2 over the root of two places, each.
    expect(band!.uncertaintyDb).toBeCloseTo(Math.SQRT2, 12);
  });

  it("that have fewer than two places in common are not compared there", () => {
    expect(roomBands([place("p", 0), place("q", 0)], [place("p", 0), place("r", 0)])).toBeNull();
  });
});
