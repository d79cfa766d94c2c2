import { describe, expect, it } from "vitest";

import { truePeakMeter } from "../../src/translation/true-peak.js";
import { seededRandom } from "../recording/seeded-random.js";
import { PEAKS_3341, truePeakOf } from "./published-programmes.js";

describe("The true peak", () => {
  it.each(PEAKS_3341)("of EBU Tech 3341 $name is the published one", (peak) => {
    const off = truePeakOf(peak) - peak.dbtp;
    // The case's own tolerance.
    expect(off).toBeLessThanOrEqual(0.2);
    expect(off).toBeGreaterThanOrEqual(-0.4);
  });

  it.each([1000, 100, 20, 10, 5, 3, 2.4])("of a sine at a %d-th of the rate is its amplitude", (part) => {
    // What lies between four places a sample is missed: at most 1 - cos(pi / 4 part); the filter is flat within 0.04 dB up to 0.42.
    const missedDb = -20 * Math.log10(Math.cos(Math.PI / (4 * part)));
    const measured = truePeakOf({ part, phaseDeg: 33, amplitude: 1 });
    expect(measured).toBeLessThan(0.04);
    expect(measured).toBeGreaterThan(-missedDb - 0.04);
  });

  it("is never below the highest sample, and is that of the loudest channel", () => {
    const meter = truePeakMeter(2);
    meter.push([
      [0, 0.25, 0],
      [0, -0.5, 0],
    ]);
    expect(meter.result()).toBeGreaterThanOrEqual(0.5);
    // A lone sample's curve has its peak at the sample.
    expect(meter.result()).toBeCloseTo(0.5, 12);
  });

  it("sees what lies between the last sample of a piece and the first of the next", () => {
    // Fourth of the rate, 45 degrees: 3 dB over its samples.
    const sine = Array.from({ length: 1000 }, (_, n) => Math.sin((Math.PI * n) / 2 + Math.PI / 4));
    const whole = truePeakMeter(1);
    whole.push([sine]);
    const pieces = truePeakMeter(1);
    for (const sample of sine) pieces.push([[sample]]);
    expect(pieces.result()).toBeCloseTo(whole.result(), 12);
    expect(whole.result()).toBeGreaterThan(0.97);
  });

  it("of a noise is the same backwards, in which other places are passed over as too low", () => {
    const random = seededRandom(5);
    const rising = Array.from({ length: 20_000 }, (_, n) => (n / 20_000) * (random() - 0.5));
    const [forwards, backwards] = [rising, rising.toReversed()].map((noise) => {
      const meter = truePeakMeter(1);
      meter.push([noise]);
      return meter.result();
    });
    // Two dozen products in another order.
    expect(backwards).toBeCloseTo(forwards!, 14);
  });

  it("is known before the signal ends as after it, and asking twice changes nothing", () => {
    const meter = truePeakMeter(1);
    meter.push([[1, 1]]);
    const first = meter.result();
    // Two equal samples: the curve between them is 2 sinc(1/2) = 4/pi = 1.27, less what the window takes.
    expect(first).toBeGreaterThan(1.2);
    expect(first).toBeLessThan(4 / Math.PI);
    expect(meter.result()).toBe(first);
  });

  it("of silence is nothing", () => {
    const meter = truePeakMeter(1);
    meter.push([new Float64Array(1000)]);
    expect(meter.result()).toBe(0);
  });

  it("is refused for channels that do not fit", () => {
    expect(() => truePeakMeter(0)).toThrow(RangeError);
    expect(() => {
      truePeakMeter(1).push([]);
    }).toThrow(RangeError);
  });
});
