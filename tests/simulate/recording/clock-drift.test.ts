import { describe, expect, it } from "vitest";
import { withClockDrift } from "../../../src/simulate/recording/clock-drift.js";

describe("a recorder whose clock drifts", () => {
  it.each([
    [48_000, 20, 100],
    [48_000, 1000, -100],
    [48_000, 20_000, 37],
    [44_100, 19_800, 100],
  ])("at %i Hz keeps a sine of %i Hz within 100 dB when it drifts by %i ppm", (rate, frequencyHz, ppm) => {
    const turn = (2 * Math.PI * frequencyHz) / rate;
    const sine = Float64Array.from({ length: rate }, (_, n) => Math.sin(turn * n));
    const drifted = withClockDrift(sine, rate, ppm);
    let worst = 0;
    for (let n = 100; n < drifted.length - 100; n++) {
      worst = Math.max(worst, Math.abs(drifted[n]! - Math.sin((turn * n) / (1 + ppm * 1e-6))));
    }
    // The bar: 100 dB down.
    expect(worst).toBeLessThan(1e-5);
  });

  it("records 5 samples more in a second at 48 kHz and +100 ppm", () => {
    expect(withClockDrift(new Float64Array(48_000), 48_000, 100).length).toBe(48_005);
    expect(withClockDrift(new Float64Array(48_000), 48_000, -100).length).toBe(47_995);
  });

  it("leaves the sound as it is when it does not drift, and refuses a drift that is no number", () => {
    const sound = Float64Array.of(1, 2, 3);
    expect(withClockDrift(sound, 48_000, 0)).toBe(sound);
    expect(() => withClockDrift(sound, 48_000, NaN)).toThrow(RangeError);
  });
});
