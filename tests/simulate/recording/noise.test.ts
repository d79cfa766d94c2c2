import { describe, expect, it } from "vitest";
import { forwardReal } from "../../../src/dsp/fft.js";
import { Random } from "../../../src/simulate/random.js";
import { pinkNoise, rootMeanSquare, whiteNoise } from "../../../src/simulate/recording/noise.js";

const LENGTH = 2 ** 18;
const RATE = 48_000;

function powerBetween(spectrum: Float64Array, fromHz: number, toHz: number): number {
  let sum = 0;
  for (let k = Math.ceil((fromHz * LENGTH) / RATE); k < (toHz * LENGTH) / RATE; k++) {
    sum += spectrum[2 * k]! ** 2 + spectrum[2 * k + 1]! ** 2;
  }
  return sum;
}

describe("pink noise", () => {
  it("holds equal power in every octave", () => {
    const spectrum = forwardReal(pinkNoise(LENGTH, RATE, 0.1, 7), LENGTH);
    const octaves = [250, 500, 1000, 2000, 4000, 8000].map((hz) => powerBetween(spectrum, hz, 2 * hz));
    const mean = octaves.reduce((sum, power) => sum + power, 0) / octaves.length;
    for (const [n, power] of octaves.entries()) {
      // A band of m bins scatters by 1 / sqrt(m) (a little more, weighted); 4.5 times that for six bands.
      const bins = (250 * 2 ** n * LENGTH) / RATE;
      expect(Math.abs(power / mean - 1)).toBeLessThan((4.5 * 1.1) / Math.sqrt(bins) + 0.01);
    }
  });

  it("has the stated root mean square between 20 Hz and 20 kHz, and nothing below 10 Hz", () => {
    const spectrum = forwardReal(pinkNoise(LENGTH, RATE, 0.1, 3), LENGTH);
    const rms = Math.sqrt((2 * powerBetween(spectrum, 20, 20_000)) / LENGTH ** 2);
    // Half the power of a pink octave near 20 Hz rests on 100 bins: the total scatters by 1 % or less; 5 times half that.
    expect(Math.abs(rms / 0.1 - 1)).toBeLessThan(0.025);
    expect(powerBetween(spectrum, 0, 9.9)).toBeLessThan(1e-20 * powerBetween(spectrum, 20, 20_000));
  });

  it("is the same for the same seed and another for another", () => {
    expect(pinkNoise(64, RATE, 1, 5)).toEqual(pinkNoise(64, RATE, 1, 5));
    expect(pinkNoise(64, RATE, 1, 5)).not.toEqual(pinkNoise(64, RATE, 1, 6));
  });
});

it("white noise has the stated root mean square and no memory", () => {
  const noise = whiteNoise(LENGTH, 0.5, 11);
  // Both scatter by about 1 / sqrt(2^18) = 0.2 %; five times that.
  expect(Math.abs(rootMeanSquare(noise, 0, LENGTH) / 0.5 - 1)).toBeLessThan(0.01);
  let product = 0;
  for (let n = 1; n < LENGTH; n++) product += (noise[n]! * noise[n - 1]!) / 0.25 / LENGTH;
  expect(Math.abs(product)).toBeLessThan(0.01);
});

it("uniform numbers fill 0 to 1 evenly, whatever the seed", () => {
  for (const seed of [0, 1, -1, 123_456_789]) {
    const random = new Random(seed);
    const counts = new Array<number>(10).fill(0);
    for (let n = 0; n < 100_000; n++) counts[Math.floor(10 * random.uniform())]!++;
    // 10 000 each, scattering by 95; five times that.
    for (const count of counts) expect(Math.abs(count - 10_000)).toBeLessThan(475);
  }
  expect(() => new Random(0.5)).toThrow(RangeError);
});
