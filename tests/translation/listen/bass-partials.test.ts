import { describe, expect, it } from "vitest";

import { fundamentalOf, partialsOf } from "../../../src/translation/listen/bass-partials.js";

const BIN_HZ = 1;
const FUNDAMENTAL_HZ = 60;

/** Level ground of power 1, a fundamental 30 dB over it, and peaks of one bin. */
function spectrum(peaksDb: Readonly<Record<number, number>>): Parameters<typeof partialsOf>[0] {
  const power = new Float64Array(1400).fill(1);
  power[FUNDAMENTAL_HZ] = 1000;
  for (const [bin, db] of Object.entries(peaksDb)) power[Number(bin)] = 10 ** (db / 10);
  return { power, binHz: BIN_HZ, lobeHz: 10 };
}

const orders = (peaksDb: Readonly<Record<number, number>>): number[] =>
  partialsOf(spectrum(peaksDb), FUNDAMENTAL_HZ).map(({ order }) => order);

describe("A partial of a bass note", () => {
  it("stands 6 dB over the median of half a fundamental to either side", () => {
    expect(orders({ 120: 5.9, 180: 6.1 })).toEqual([3]);
  });

  it("does not stand out of others that fill most of that width", () => {
    // From 150 to 210 Hz 61 bins: 31 of them at 10 dB make the median 10 dB.
    const crowd = Object.fromEntries(Array.from({ length: 30 }, (_, n) => [181 + n, 10]));
    expect(orders({ ...crowd, 180: 15.9 })).toEqual([]);
    expect(orders({ ...crowd, 180: 16.1 })).toEqual([3]);
  });

  it("is looked for from the second to the tenth, up to 1200 Hz, and half a lobe around its place", () => {
    const all = Object.fromEntries(Array.from({ length: 12 }, (_, n) => [FUNDAMENTAL_HZ * (n + 1), 20]));
    expect(orders(all)).toEqual([2, 3, 4, 5, 6, 7, 8, 9, 10]);
    expect(orders({ 125: 20, 186: 20 })).toEqual([2]);
    const high = spectrum(Object.fromEntries(Array.from({ length: 10 }, (_, n) => [130 * (n + 1), 20])));
    // The tenth of 130 Hz would be 1300 Hz.
    expect(partialsOf(high, 130).map(({ order }) => order)).toEqual([2, 3, 4, 5, 6, 7, 8, 9]);
  });
});

describe("The fundamental of a bass note", () => {
  it("is the strongest peak from 35 to 120 Hz, between bins", () => {
    // A symmetric peak lies on its bin.
    expect(fundamentalOf(spectrum({ 34: 60, 121: 60 }))).toBe(60);
    // With a neighbour as high, in the middle between both.
    expect(fundamentalOf(spectrum({ 60: 40, 61: 40 }))).toBeCloseTo(60.5, 9);
    expect(fundamentalOf({ power: new Float64Array(1400), binHz: BIN_HZ, lobeHz: 10 })).toBeNull();
  });
});
