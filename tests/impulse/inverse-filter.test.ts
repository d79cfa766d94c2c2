import { describe, expect, it } from "vitest";
import { fittingSize, forwardReal } from "../../src/dsp/fft.js";
import { type Excitation, excitationFromRecipe } from "../../src/impulse/excitation.js";
import { bandGain, inverseOf } from "../../src/impulse/inverse-filter.js";
import { noiseInResponse } from "../../src/impulse/noise.js";

const RATE = 48_000;

function sweepTo(endHz: number): { excitation: Excitation; size: number } {
  const [startHz, growthS] = [20, 0.35];
  const excitation = excitationFromRecipe({
    sampleRate: RATE,
    levelDbfs: -12,
    startHz,
    endHz,
    growthS,
    lengthS: growthS * Math.log(endHz / startHz),
    fadeInS: 0.08,
    fadeOutS: 0.001,
  } as Parameters<typeof excitationFromRecipe>[0]);
  return { excitation, size: fittingSize(2 * excitation.samples().length) };
}

describe.each([20_000, 23_520, 23_800, 24_000])("the inverse of a sweep at 48 kHz that ends at %i Hz", (endHz) => {
  const { excitation, size } = sweepTo(endHz);

  it("makes one pulse of all of the swept band", () => {
    const played = excitation.spectrum(size);
    const inverse = excitation.inverse(size);
    let farthest = 0;
    for (let k = Math.ceil((20 * size) / RATE); k <= Math.floor((endHz * size) / RATE); k++) {
      const re = played[2 * k]! * inverse[2 * k]! - played[2 * k + 1]! * inverse[2 * k + 1]!;
      const im = played[2 * k]! * inverse[2 * k + 1]! + played[2 * k + 1]! * inverse[2 * k]!;
      farthest = Math.max(farthest, Math.hypot(re - 1, im));
    }
    // Rounding of a double.
    expect(farthest).toBeLessThan(1e-12);
  });

  it("fades to nothing by a third of an octave below it", () => {
    const { gainAt } = bandGain(excitation, size);
    // Half way on log frequency a raised cosine is at a half; a bin is 0.3 Hz wide or less.
    expect(gainAt(Math.round(((20 / 2 ** (1 / 6)) * size) / RATE))).toBeCloseTo(0.5, 1);
    expect(gainAt(Math.floor((20 / 2 ** (1 / 3) / RATE) * size))).toBe(0);
  });

  it("lets in as much noise at 1 kHz as that of one which ends elsewhere", () => {
    const noise = { density: new Float64Array(2049).fill(1e-6), segment: 4096, sampleRate: RATE, seconds: 1 };
    const at1kHz = ({ excitation: one, size: own }: ReturnType<typeof sweepTo>): number => {
      const { frequencyHz, powerPerSecond } = noiseInResponse(noise, one, own, 1);
      return powerPerSecond[frequencyHz.findIndex((hz) => hz > 999)]!;
    };
    // The ripple of a sweep's spectrum far from its ends.
    expect(Math.abs(at1kHz({ excitation, size }) / at1kHz(sweepTo(18_000)) - 1)).toBeLessThan(0.01);
  });
});

describe("the inverse of a sound whose fades are not known", () => {
  it.each([
    [200, 8000],
    // Narrower than its two edges together.
    [1000, 1300],
  ])("is faded once at each frequency, %i to %i Hz", (fromHz, toHz) => {
    const size = 2 ** 14;
    const band = { sampleRate: RATE, sweptHz: [fromHz, toHz] as const, growthS: null };
    const { gainAt } = bandGain(band, size);
    const inverse = inverseOf(forwardReal(Float64Array.of(1), size), band);
    for (let k = 0; k <= size / 2; k++) expect(inverse[2 * k]).toBeCloseTo(gainAt(k), 12);
  });
});
