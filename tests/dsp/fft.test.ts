import { describe, expect, it } from "vitest";
import { fittingSize, forwardReal, inverseComplex, inverseProduct, inverseReal } from "../../src/dsp/fft.js";
import { whiteNoise } from "../known-recording.js";

/** The definition, term by term. */
function slowTransform(samples: Float64Array): Float64Array {
  const size = samples.length;
  const spectrum = new Float64Array(size + 2);
  for (let k = 0; k <= size / 2; k++) {
    for (let n = 0; n < size; n++) {
      spectrum[2 * k]! += samples[n]! * Math.cos((2 * Math.PI * k * n) / size);
      spectrum[2 * k + 1]! -= samples[n]! * Math.sin((2 * Math.PI * k * n) / size);
    }
  }
  return spectrum;
}

const largestDifference = (a: ArrayLike<number>, b: ArrayLike<number>): number => {
  let largest = 0;
  for (let n = 0; n < a.length; n++) largest = Math.max(largest, Math.abs(a[n]! - b[n]!));
  return largest;
};

describe("the Fourier transform of a real signal", () => {
  it.each([4, 8, 64, 256])("of %d samples is the sum that defines it", (size) => {
    const noise = whiteNoise(size, size);
    // 256 terms near 4, each rounded: 256 * 4 * 2^-53 is 1e-13.
    expect(largestDifference(forwardReal(noise, size), slowTransform(noise))).toBeLessThan(1e-12);
  });

  it.each([3 * 2 ** 14, 5 * 2 ** 14])("of %d samples is the sum that defines it, bin by bin", (size) => {
    const noise = whiteNoise(size, 9);
    const spectrum = forwardReal(noise, size);
    for (const bin of [0, 1, 7, size / 10, size / 6, size / 5 + 3, size / 3 + 1, size / 2 - 1, size / 2].map(
      Math.floor,
    )) {
      let re = 0;
      let im = 0;
      for (let n = 0; n < size; n++) {
        // Whole turns taken off first: the sum itself is to be as good as the transform.
        const angle = (2 * Math.PI * ((bin * n) % size)) / size;
        re += noise[n]! * Math.cos(angle);
        im -= noise[n]! * Math.sin(angle);
      }
      // 80,000 rounded terms near 4, added up at random: sqrt(80000) * 4 * 300 * 2^-53 is 4e-11.
      expect(Math.abs(spectrum[2 * bin]! - re)).toBeLessThan(4e-11);
      expect(Math.abs(spectrum[2 * bin + 1]! - im)).toBeLessThan(4e-11);
    }
  });

  it("takes the shortest length it knows", () => {
    expect([3, 1000, 20_000, 40_961, 70_000, 650_000, 700_000].map(fittingSize)).toEqual([
      4,
      1024,
      32_768,
      3 * 2 ** 14,
      5 * 2 ** 14,
      5 * 2 ** 17,
      3 * 2 ** 18,
    ]);
  });

  it.each([4, 1024, 2 ** 17, 3 * 2 ** 15, 5 * 2 ** 15])("of %d samples is undone by the inverse", (size) => {
    const noise = whiteNoise(size, 3);
    expect(largestDifference(inverseReal(forwardReal(noise, size)), noise)).toBeLessThan(1e-13);
  });

  it.each([4, 8, 64])("of %d samples times another is their circular convolution", (size) => {
    const [one, other] = [whiteNoise(size, 5), whiteNoise(size, 6)];
    const convolved = one.map((_, n) => one.reduce((sum, value, k) => sum + value * other[(n - k + size) % size]!, 0));
    // 64 products near 10, each rounded: 64 * 10 * 2^-53 is 1e-13.
    const product = inverseProduct(forwardReal(one, size), forwardReal(other, size));
    expect(largestDifference(product, convolved)).toBeLessThan(1e-12);
    expect(() => inverseProduct(forwardReal(one, size), new Float64Array(size))).toThrow(RangeError);
  });

  it("keeps the energy", () => {
    const noise = whiteNoise(4096, 4);
    const spectrum = forwardReal(noise, 8192);
    let energy = spectrum[0]! ** 2 + spectrum[8192]! ** 2;
    for (let k = 1; k < 4096; k++) energy += 2 * (spectrum[2 * k]! ** 2 + spectrum[2 * k + 1]! ** 2);
    const expected = noise.reduce((sum, value) => sum + value * value, 0);
    expect(energy / 8192 / expected).toBeCloseTo(1, 12);
  });

  it("leaves no trace of one call in the next", () => {
    const first = forwardReal(whiteNoise(64, 1), 64);
    forwardReal(whiteNoise(60, 2), 64);
    expect(forwardReal(whiteNoise(64, 1), 64)).toEqual(first);
  });

  it("turns one complex bin into a turning phasor", () => {
    const spectrum = new Float64Array(32);
    spectrum[2 * 3] = 16;
    const signal = inverseComplex(spectrum);
    expect(signal[2 * 4]).toBeCloseTo(Math.cos((2 * Math.PI * 12) / 16), 14);
    expect(signal[2 * 4 + 1]).toBeCloseTo(Math.sin((2 * Math.PI * 12) / 16), 14);
  });

  it("refuses sizes that are no power of two", () => {
    for (const size of [0, 3, 6, 12, Number.NaN]) expect(() => forwardReal([], size)).toThrow(RangeError);
    expect(() => forwardReal(new Float64Array(9), 8)).toThrow(RangeError);
  });
});
