import { describe, expect, it } from "vitest";

import { mixSpectrum } from "../../../src/translation/listen/mix-spectrum.js";
import { monoLoss } from "../../../src/translation/listen/mono-loss.js";
import { seededRandom } from "../../recording/seeded-random.js";

const RATE = 48_000;

function band(rho: number): ReturnType<typeof monoLoss> {
  return monoLoss({ nominalHz: 1000, left: 0.5, right: 0.5, cross: 0.5 * rho });
}

describe("What mono costs", () => {
  // The collected evidence lists these (section 8): arithmetic, rounded to a tenth.
  it.each([
    [1, 0],
    [0.6, -1],
    [0.3, -1.9],
    [0, -3],
    [-0.3, -4.6],
    [-0.6, -7],
  ])("is, at a correlation of %d, %d dB", (rho, lossDb) => {
    // Half the last digit printed.
    expect(Math.abs(band(rho).lossDb! - lossDb)).toBeLessThanOrEqual(0.05);
  });

  it("is everything when one side is the other upside down", () => {
    expect(band(-1)).toMatchObject({ lossDb: null, reason: "vanishes", says: "warning" });
  });

  it("is not asked of a band without sound", () => {
    expect(monoLoss({ nominalHz: 25, left: 0, right: 0, cross: 0 })).toMatchObject({
      lossDb: null,
      reason: "no-sound",
    });
  });

  it("is noted under a correlation of 0.3 and warned of under -0.1, not where nothing but chance is negative", () => {
    expect([0.31, 0.29, -0.09, -0.11].map((rho) => band(rho).says)).toEqual(["fine", "note", "note", "warning"]);
  });
});

describe("The long-term spectrum of a mix", () => {
  it("gives the power of a tone in its band and half of that for each of its sides' shares", () => {
    const spectrum = mixSpectrum(RATE);
    const tone = Float32Array.from({ length: 4 * RATE }, (_, n) => Math.sin((2 * Math.PI * 1000 * n) / RATE));
    spectrum.push(
      tone,
      tone.map((value) => -0.5 * value),
    );
    const at = spectrum.bands().find(({ nominalHz }) => nominalHz === 1000)!;
    // Frames that hold no whole number of periods: 1e-4 of the power at most.
    expect(at.left).toBeCloseTo(0.5, 4);
    expect(at.right).toBeCloseTo(0.125, 4);
    expect(at.cross).toBeCloseTo(-0.25, 4);
  });

  it("finds nothing in common between two noises, and does not care how the mix is cut", () => {
    const random = seededRandom(11);
    const noise = (): Float32Array => Float32Array.from({ length: 20 * RATE }, () => random() - 0.5);
    const [left, right] = [noise(), noise()];
    const [whole, cut] = [mixSpectrum(RATE), mixSpectrum(RATE)];
    whole.push(left, right);
    for (let at = 0; at < left.length; at += 7777)
      cut.push(left.subarray(at, at + 7777), right.subarray(at, at + 7777));
    expect(cut.bands()).toEqual(whole.bands());
    const at = whole.bands().find(({ nominalHz }) => nominalHz === 4000)!;
    // 926 Hz over 20 s hold some 18 000 independent values: 0.01 is one standard deviation, 0.04 four.
    expect(Math.abs(monoLoss(at).correlation!)).toBeLessThan(0.04);
    // A band's share of white noise is its share of the half rate: 1/12 of a unit range squared.
    expect(10 * Math.log10(at.left / ((1 / 12) * ((10 ** 3.65 - 10 ** 3.55) / 24_000)))).toBeCloseTo(0, 0);
  });
});
