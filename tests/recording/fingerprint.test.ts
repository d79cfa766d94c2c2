import { describe, expect, it } from "vitest";
import { type Fingerprint, fingerprint, sameRecording } from "../../src/recording/fingerprint.js";
import { pinkNoise, whiteNoise } from "../known-recording.js";

const sampleRate = 48_000;
const SILENCE = 12_000;
const of = (samples: Float64Array, end: number | null = SILENCE): Fingerprint => fingerprint(samples, sampleRate, end);
/** Pink noise of the room under white noise of the preamp, and a hum that every recording shares. */
const recorded = (seed: number): Float64Array => {
  const white = whiteNoise(20_000, seed);
  return pinkNoise(20_000, seed + 100, sampleRate).map(
    (value, n) => 1e-2 * value + 1e-4 * white[n]! + 1e-2 * Math.sin((2 * Math.PI * 50 * n) / sampleRate),
  );
};

describe("The noise of a silence", () => {
  it("tells a copy, with its gain and its polarity", () => {
    const copy = of(recorded(1).map((value) => -0.5 * value));
    // 20 lg 0.5, to the rounding of 32-bit floats.
    expect(sameRecording(of(recorded(1)), copy)!.gainDb).toBeCloseTo(-6.0206, 3);
    expect(sameRecording(of(recorded(1)), copy)!.inverted).toBe(true);
  });

  it("tells a copy of which the search finds the sweep some samples off", () => {
    expect(sameRecording(of(recorded(1)), of(recorded(1), SILENCE + 9))).not.toBeNull();
  });

  it.each([2, 3, 4, 5])("tells two takes apart that share a loud hum, seed %d", (seed) => {
    expect(sameRecording(of(recorded(1)), of(recorded(seed)))).toBeNull();
  });
});

describe("Recordings without a silence", () => {
  it("are the same only sample by sample", () => {
    const samples = recorded(1);
    expect(sameRecording(of(samples, null), of(samples.slice(), null))).toEqual({ gainDb: 0, inverted: false });
    const other = samples.slice();
    other[7_000]! += 1e-6;
    expect(sameRecording(of(samples, null), of(other, null))).toBeNull();
  });
});
