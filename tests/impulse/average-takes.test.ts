import { describe, expect, it } from "vitest";
import { fractionalShift } from "../../src/dsp/fractional-shift.js";
import { forwardReal, inverseReal } from "../../src/dsp/fft.js";
import { averageTakes } from "../../src/impulse/average-takes.js";
import { phantomCentre } from "../../src/impulse/phantom-centre.js";
import type { ImpulseResponse } from "../../src/model.js";
import { rms, whiteNoise } from "../known-recording.js";

const sampleRate = 48_000;
const SIZE = 16_384;
const ARRIVAL = 6000;

/** A decaying, band-limited response with its arrival at 6000 plus a delay. */
function response(delaySamples: number, change: (hz: number) => number = () => 1): ImpulseResponse {
  const noise = whiteNoise(SIZE, 21);
  const samples = noise.map((value, n) => (n < ARRIVAL ? 0 : value * 0.02 * Math.exp(-(n - ARRIVAL) / 900)));
  samples[ARRIVAL] = 1;
  const spectrum = forwardReal(samples, SIZE);
  for (let k = 0; k <= SIZE / 2; k++) {
    const hz = (k * sampleRate) / SIZE;
    const gain = hz < 30 || hz > 18_000 ? 0 : change(hz);
    spectrum[2 * k]! *= gain;
    spectrum[2 * k + 1]! *= gain;
  }
  return {
    samples: fractionalShift(inverseReal(spectrum), delaySamples),
    sampleRate,
    // The arrival is read off each take with its own small error: alignment must not rest on it.
    arrivalSample: ARRIVAL + delaySamples + 0.2 * Math.sin(delaySamples),
    polarity: 1,
    sweptHz: [30, 18_000],
    noise: null,
  };
}

describe("takes of one place", () => {
  it("that differ only by a fraction of a sample average to the first of them", () => {
    const first = response(0);
    const { impulse, agree, repeatabilityDb } = averageTakes([first, response(0.37), response(-12.81)]);
    expect(agree).toBe(true);
    // Alignment by phase slope to better than 1e-4 samples; at 18 kHz that is 2e-4 of the amplitude.
    const difference = impulse.samples.map((value, n) => value - first.samples[n]!);
    expect(rms(difference) / rms(first.samples)).toBeLessThan(3e-4);
    // A mere delay changes no level: what remains is the ends of the arrays.
    expect(repeatabilityDb).toBeLessThan(1e-3);
  });

  it("lose uncorrelated noise by 3 dB for two", () => {
    const clean = response(0);
    const takes = [5, 6].map((seed) => {
      const noise = whiteNoise(SIZE, seed);
      return { ...clean, samples: clean.samples.map((value, n) => value + 1e-3 * noise[n]!) };
    });
    const { impulse } = averageTakes(takes);
    const left = rms(impulse.samples.map((value, n) => value - clean.samples[n]!));
    // 16384 samples scatter their mean square by 1 %; alignment to the noisy first take adds as little.
    expect(left / 1e-3).toBeCloseTo(Math.SQRT1_2, 1);
  });

  it("that differ by more than half a decibel in a third octave are not averaged", () => {
    const bumped = response(0, (hz) => (hz > 450 && hz < 560 ? 1.12 : 1));
    const { agree, largestDifferenceDb, impulse } = averageTakes([response(0), bumped]);
    expect(agree).toBe(false);
    expect(largestDifferenceDb).toBeGreaterThan(0.5);
    expect(impulse.samples).toEqual(response(0).samples);
  });
});

describe("the phantom centre", () => {
  it("is 6 dB over either side where both agree, and cancels where right comes half a period late", () => {
    const left = response(0);
    const levelAt = (impulse: ImpulseResponse, hz: number): number => {
      const spectrum = forwardReal(impulse.samples, SIZE);
      const k = Math.round((hz * SIZE) / sampleRate);
      return 20 * Math.log10(Math.hypot(spectrum[2 * k]!, spectrum[2 * k + 1]!));
    };
    const alone = levelAt(left, 250);
    const together = phantomCentre(left, { ...response(3.3), arrivalSample: left.arrivalSample + 3.3 }, 0);
    expect(levelAt(together, 250) - alone).toBeCloseTo(20 * Math.log10(2), 2);
    const bin = Math.round((250 * SIZE) / sampleRate);
    const halfPeriodS = SIZE / sampleRate / bin / 2;
    const apart = phantomCentre(left, left, halfPeriodS);
    expect(levelAt(apart, 250) - alone).toBeLessThan(-40);
    expect(together.sweptHz[1]).toBe(500);
  });
});
