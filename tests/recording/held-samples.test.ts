import { describe, expect, it } from "vitest";
import { heldSamples } from "../../src/recording/held-samples.js";
import { whiteNoise } from "../known-recording.js";

const sampleRate = 48_000;
const noise = whiteNoise(10_000, 9);
const held = (samples: Float64Array): ReturnType<typeof heldSamples> =>
  heldSamples({ samples, sampleRate }, 0, samples.length);

describe("A value that is held", () => {
  it("over 16 samples is found where it begins, also when it is zero", () => {
    for (const value of [0, 0.3]) {
      expect(held(noise.slice().fill(value, 4000, 4016))).toEqual([{ sample: 4000, count: 16 }]);
    }
  });

  it("over 15 samples is not claimed", () => {
    expect(held(noise.slice().fill(0, 4000, 4015))).toEqual([]);
  });

  it("is none in a soft sound of which the converter's steps hold most neighbours equal", () => {
    // 100 Hz with a peak of two steps of 16 bits: a crest lasts some 100 samples, and moves as seldom around it.
    const steps = Float64Array.from(
      { length: 10_000 },
      (_, n) => Math.round(2 * Math.sin((2 * Math.PI * n) / 480)) / 32768,
    );
    expect(held(steps)).toEqual([]);
  });

  it("is none in digital silence before a recording's first sound", () => {
    expect(held(noise.slice().fill(0, 0, 5000))).toEqual([]);
  });
});
