import { describe, expect, it } from "vitest";
import { heardSweep } from "../../src/impulse/heard-sweep.js";
import { whiteNoise } from "../known-recording.js";

const sampleRate = 48_000;
const noise = whiteNoise(8 * sampleRate, 31);

/** A sweep after a second of noise, which is 26 dB under it. */
function recorded(fromHz: number, toHz: number, growthS: number): Float64Array {
  const lengthS = growthS * Math.log(toHz / fromHz);
  return noise.map((value, n) => {
    const t = n / sampleRate - 1;
    const sounds = t >= 0 && t <= lengthS;
    const phase = sounds ? 2 * Math.PI * fromHz * growthS * (Math.exp(t / growthS) - 1) : 0;
    return 0.01 * value + 0.3 * Math.sin(phase);
  });
}

describe("A sweep that nobody has told of", () => {
  it.each([
    [40, 16_000, 0.5],
    [20, 20_000, 0.9],
    [200, 2000, 1.5],
  ])("from %d to %d Hz, growing by e in %d s, is recognised by its line", (fromHz, toHz, growthS) => {
    const heard = heardSweep({ samples: recorded(fromHz, toHz, growthS), sampleRate })!;
    // As the function says: growth to about a hundredth, frequencies to a semitone; a window may miss the ends.
    expect(Math.abs(heard.growthS / growthS - 1)).toBeLessThan(0.02);
    const fromS = 1 + growthS * Math.log(heard.fromHz / fromHz);
    expect(Math.abs(heard.fromS - fromS)).toBeLessThan(0.03);
    expect(heard.fromHz).toBeLessThan(2 * Math.max(fromHz, 30));
    expect(heard.toHz).toBeGreaterThan(0.85 * toHz);
  });

  it("is not heard in noise, in a tone, nor in a glide that falls", () => {
    expect(heardSweep({ samples: noise, sampleRate })).toBeNull();
    const tone = noise.map((value, n) => 0.01 * value + 0.3 * Math.sin((2 * Math.PI * 440 * n) / sampleRate));
    expect(heardSweep({ samples: tone, sampleRate })).toBeNull();
    expect(heardSweep({ samples: recorded(40, 16_000, 0.5).reverse(), sampleRate })).toBeNull();
  });
});
