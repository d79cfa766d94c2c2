import { describe, expect, it } from "vitest";
import { Random } from "../../src/simulate/random.js";
import { levelDeviationDb, squaredPressureCorrelation } from "../../src/standards/diffuse-field.js";

/** Complex pressures of one tone at two places, of so many plane waves from everywhere. */
function squaredPressures(random: Random, wavenumber: number, distanceM: number, waves: number): [number, number] {
  const at = [0, 0, 0, 0];
  for (let n = 0; n < waves; n++) {
    const phase = 2 * Math.PI * random.uniform();
    const along = 2 * random.uniform() - 1;
    const turn = wavenumber * distanceM * along;
    at[0]! += Math.cos(phase);
    at[1]! += Math.sin(phase);
    at[2]! += Math.cos(phase + turn);
    at[3]! += Math.sin(phase + turn);
  }
  return [at[0]! ** 2 + at[1]! ** 2, at[2]! ** 2 + at[3]! ** 2];
}

describe("A tone in a diffuse field", () => {
  it("has squared pressures at two places that correlate as sinc squared: superposed plane waves", () => {
    const random = new Random(5);
    const TRIALS = 6000;
    for (const angle of [0.4, 1.2, 2.5]) {
      const pairs = Array.from({ length: TRIALS }, () => squaredPressures(random, 1, angle, 40));
      const mean = (pick: (pair: [number, number]) => number): number =>
        pairs.reduce((sum, pair) => sum + pick(pair), 0) / TRIALS;
      const [a, b] = [mean(([x]) => x), mean(([, y]) => y)];
      const covariance = mean(([x, y]) => (x - a) * (y - b));
      const spread = Math.sqrt(mean(([x]) => (x - a) ** 2) * mean(([, y]) => (y - b) ** 2));
      // Four standard deviations of a correlation of exponential variables over so many trials, rounded up.
      expect(Math.abs(covariance / spread - squaredPressureCorrelation(1, angle))).toBeLessThan(
        (4 * 2) / Math.sqrt(TRIALS),
      );
    }
  });

  it("varies by 5.57 dB from place to place", () => {
    const random = new Random(6);
    const TRIALS = 6000;
    const levels = Array.from({ length: TRIALS }, () => 10 * Math.log10(squaredPressures(random, 1, 0, 40)[0]));
    const mean = levels.reduce((sum, level) => sum + level, 0) / TRIALS;
    const deviation = Math.sqrt(levels.reduce((sum, level) => sum + (level - mean) ** 2, 0) / TRIALS);
    // The level of an exponential variable: pi / sqrt 6 nepers of power. Its kurtosis is 5.4: 4 sqrt(4.4 / 4 n) = 5.4 %.
    expect(Math.abs(deviation / levelDeviationDb(0, 0.3) - 1)).toBeLessThan(0.054);
    expect(levelDeviationDb(0, 0.3)).toBeCloseTo((10 / Math.LN10) * (Math.PI / Math.sqrt(6)), 2);
  });
});

it("the same place is wholly correlated with itself, half a wavelength away not at all", () => {
  expect(squaredPressureCorrelation(20, 0)).toBe(1);
  expect(squaredPressureCorrelation(Math.PI, 1)).toBeLessThan(1e-30);
});
