import { describe, expect, it } from "vitest";

import { rateChange } from "../../src/dsp/sample-rate.js";

async function changed(fromRate: number, toRate: number, left: Float32Array, right: Float32Array): Promise<number[][]> {
  const change = await rateChange(fromRate, toRate, left.length);
  const out: number[][] = [[], []];
  const take = (sides: readonly Float32Array[]): void => {
    for (const [side, samples] of sides.entries()) out[side]!.push(...samples);
  };
  for (let at = 0; at < left.length; at += 10_000) {
    take(change.push(left.subarray(at, at + 10_000), right.subarray(at, at + 10_000)));
  }
  take(change.end());
  return out;
}

describe("A change of sample rate", () => {
  it.each([
    [44_100, 48_000],
    [96_000, 48_000],
    [48_000, 44_100],
  ])("from %d to %d Hz keeps a tone's level and place in time", async (fromRate, toRate) => {
    const tone = (rate: number, hz: number): Float32Array =>
      Float32Array.from({ length: rate }, (_, n) => 0.5 * Math.sin((2 * Math.PI * hz * n) / rate));
    const [left, right] = await changed(fromRate, toRate, tone(fromRate, 997), tone(fromRate, 9973));
    expect(left).toHaveLength(toRate);
    expect(right).toHaveLength(toRate);
    // The library states 121 dB for this quality; the ends, where the tone begins and stops, are left out.
    const worst = (got: readonly number[], hz: number): number => {
      const wanted = tone(toRate, hz);
      return Math.max(...got.slice(2000, -2000).map((value, n) => Math.abs(value - wanted[n + 2000]!)));
    };
    expect(20 * Math.log10(worst(left!, 997))).toBeLessThan(-115);
    expect(20 * Math.log10(worst(right!, 9973))).toBeLessThan(-115);
  });

  it("refuses a piece that the library cannot hold", async () => {
    const change = await rateChange(44_100, 48_000, 1e6);
    expect(() => change.push(new Float32Array(100_000), new Float32Array(100_000))).toThrow(RangeError);
  });
});
