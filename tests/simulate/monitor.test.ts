import { describe, expect, it } from "vitest";
import { monitorHarmonicsDb, monitorResponse, type Monitor } from "../../src/simulate/monitor.js";

const levelDb = (monitor: Monitor, frequencyHz: number): number =>
  20 * Math.log10(Math.hypot(...monitorResponse(monitor, frequencyHz)));

// Rounding of a few dozen products leaves 1e-13 of a level; 1e-10 dB stands well clear of it.
const EXACT = 10;

describe("a monitor's response", () => {
  it("falls by 3.01 dB at a Butterworth corner of any order and by the order's slope far outside", () => {
    for (const order of [1, 2, 3, 4, 5, 8]) {
      const monitor: Monitor = { lowRollOff: { frequencyHz: 40, order }, highRollOff: { frequencyHz: 16_000, order } };
      const butterworth = (w: number): number => -10 * Math.log10(1 + w ** (2 * order));
      for (const frequencyHz of [10, 20, 40, 1000, 16_000, 40_000]) {
        const expected = butterworth(40 / frequencyHz) + butterworth(frequencyHz / 16_000);
        expect(levelDb(monitor, frequencyHz)).toBeCloseTo(expected, EXACT);
      }
      expect(levelDb(monitor, 0)).toBe(-Infinity);
    }
  });

  it("of second order is as strong at the corner as its quality says", () => {
    expect(levelDb({ lowRollOff: { frequencyHz: 50, order: 2, quality: 2 } }, 50)).toBeCloseTo(
      20 * Math.log10(2),
      EXACT,
    );
  });

  it("leads below its low corner: a second-order high-pass by 90 degrees at the corner", () => {
    const [real, imaginary] = monitorResponse({ lowRollOff: { frequencyHz: 50, order: 2 } }, 50);
    expect(real).toBeCloseTo(0, 14);
    expect(imaginary).toBeGreaterThan(0.7);
  });

  it("stays flat through a Linkwitz-Riley crossover, half a turn behind at the crossover", () => {
    const monitor: Monitor = { crossoversHz: [2100] };
    for (const frequencyHz of [20, 500, 2100, 9000]) expect(levelDb(monitor, frequencyHz)).toBeCloseTo(0, EXACT);
    const [real, imaginary] = monitorResponse(monitor, 2100);
    expect(real).toBeCloseTo(-1, 14);
    expect(imaginary).toBeCloseTo(0, 14);
    expect(monitorResponse(monitor, 1000)[1]).toBeLessThan(0);
  });

  it("is the sum of the crossover's own low and high halves, each two Butterworth filters of second order", () => {
    const half = (kind: "lowRollOff" | "highRollOff", hz: number): [number, number] => {
      const [r, i] = monitorResponse({ [kind]: { frequencyHz: 2100, order: 2 } }, hz);
      return [r * r - i * i, 2 * r * i];
    };
    for (const hz of [700, 2100, 5000]) {
      const [lowR, lowI] = half("highRollOff", hz);
      const [highR, highI] = half("lowRollOff", hz);
      const [r, i] = monitorResponse({ crossoversHz: [2100] }, hz);
      expect(r).toBeCloseTo(lowR + highR, 12);
      expect(i).toBeCloseTo(lowI + highI, 12);
    }
  });

  it("takes a peak's gain at its midband and a shelf's on its side, half of it at the corner", () => {
    const peak: Monitor = { shapes: [{ kind: "peak", frequencyHz: 120, gainDb: 4, quality: 3 }] };
    expect(levelDb(peak, 120)).toBeCloseTo(4, EXACT);
    // The two points of half the gain lie 1 / quality of the midband apart: f +- f / 2Q on a symmetrical scale.
    const side = 120 * (Math.sqrt(1 + 1 / 36) + 1 / 6);
    expect(levelDb(peak, side)).toBeCloseTo(2, EXACT);
    const low: Monitor = { shapes: [{ kind: "lowShelf", frequencyHz: 200, gainDb: -3 }] };
    expect(levelDb(low, 0)).toBeCloseTo(-3, EXACT);
    expect(levelDb(low, 200)).toBeCloseTo(-1.5, EXACT);
    expect(levelDb(low, 2e9)).toBeCloseTo(0, EXACT);
    const high: Monitor = { shapes: [{ kind: "highShelf", frequencyHz: 5000, gainDb: 2 }] };
    expect(levelDb(high, 1e-3)).toBeCloseTo(0, EXACT);
    expect(levelDb(high, 5000)).toBeCloseTo(1, EXACT);
  });

  it("takes a second-order shelf's gain at its end and half of it at the corner, by its closed form between", () => {
    const gainDb = -5;
    const half = 10 ** (gainDb / 40);
    const power = (w: number): number => (half ** 2 + w ** 4) / (half ** -2 + w ** 4);
    for (const hz of [0, 20, 80, 120, 150, 300, 5000]) {
      const low: Monitor = { shapes: [{ kind: "lowShelf", order: 2, frequencyHz: 120, gainDb }] };
      expect(levelDb(low, hz)).toBeCloseTo(10 * Math.log10(power(hz / 120)), EXACT);
      if (hz === 0) continue;
      const high: Monitor = { shapes: [{ kind: "highShelf", order: 2, frequencyHz: 120, gainDb }] };
      expect(levelDb(high, hz)).toBeCloseTo(10 * Math.log10(power(120 / hz)), EXACT);
    }
    expect(10 * Math.log10(power(0))).toBeCloseTo(gainDb, EXACT);
    expect(10 * Math.log10(power(1))).toBeCloseTo(gainDb / 2, EXACT);
  });

  it("turns by its delay and flips by its polarity", () => {
    const [real, imaginary] = monitorResponse({ delayS: 0.001, polarity: -1, gainDb: 6 }, 250);
    const gain = 10 ** (6 / 20);
    expect(real).toBeCloseTo(0, 14);
    expect(imaginary).toBeCloseTo(gain, 12);
  });
});

it("the second harmonic of a bent curve is half the coefficient times the amplitude, as the monitor filters it", () => {
  const monitor: Monitor = { distortion: { second: 0.02, third: 0 }, lowRollOff: { frequencyHz: 50, order: 2 } };
  const filter = levelDb(monitor, 100) - levelDb(monitor, 50);
  expect(monitorHarmonicsDb(monitor, 50, 0.5).second).toBeCloseTo(20 * Math.log10(0.005) + filter, EXACT);
  expect(monitorHarmonicsDb(monitor, 50, 0.5).third).toBe(-Infinity);
});
