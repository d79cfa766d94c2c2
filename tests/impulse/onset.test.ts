import { describe, expect, it } from "vitest";

import { fractionalShift } from "../../src/dsp/fractional-shift.js";
import { onsetSample } from "../../src/impulse/onset.js";
import { filtered, slope, steep } from "../laboratory/faults/filters.js";
import { whiteNoise } from "../known-recording.js";

const sampleRate = 48_000;
const ARRIVAL = 2000;

/** A loudspeaker that reaches from 60 Hz to 18 kHz, and a room behind it. */
function response(): Float64Array {
  const samples = new Float64Array(8192);
  samples[ARRIVAL] = 1;
  const noise = whiteNoise(4000, 5);
  noise.forEach((value, n) => {
    samples[ARRIVAL + 200 + n] = 0.02 * value * Math.exp(-n / 1500);
  });
  return filtered(samples, sampleRate, (hz) => slope(18_000, 24)(hz) / Math.sqrt(1 + (60 / Math.max(hz, 1)) ** 4));
}

const onsetOf = (samples: Float64Array, arrivalSample = ARRIVAL): number =>
  onsetSample({
    samples,
    sampleRate,
    arrivalSample,
    polarity: 1,
    sweptHz: [20, 20_000],
    noise: null,
  });

describe("The beginning of the direct sound", () => {
  it("lies ahead of the arrival by the rise of the band's own pulse", () => {
    const ahead = ARRIVAL - onsetOf(response());
    // A band 7 kHz wide rises in about 1 / 7 kHz, 7 samples.
    expect(ahead).toBeGreaterThan(2);
    expect(ahead).toBeLessThan(14);
  });

  it.each([12_500, 16_000, 19_000])("is not moved by a filter that takes away what lies above %d Hz", (edgeHz) => {
    const whole = response();
    expect(onsetOf(filtered(whole, sampleRate, steep(edgeHz)))).toBeCloseTo(onsetOf(whole), 1);
  });

  it("moves with the sound, by fractions of a sample", () => {
    const whole = response();
    for (const later of [0.25, 0.5, 0.8]) {
      const moved = onsetOf(fractionalShift(whole, later), ARRIVAL + later) - onsetOf(whole);
      // Between two of the envelope's steps, a quarter of a sample apart, it is taken as straight.
      expect(moved).toBeCloseTo(later, 1);
    }
  });
});
