import { describe, expect, it } from "vitest";
import { levelFacts } from "../../src/recording/level-facts.js";
import { seededNormal } from "./seeded-random.js";

const amplitudeOf = (db: number): number => 10 ** (db / 20);
const quantise = (value: number, bits: number): number => {
  const full = 2 ** (bits - 1);
  return Math.max(-full, Math.min(full - 1, Math.round(value * full))) / full;
};

interface Tone {
  readonly hz: number;
  readonly db: number;
  readonly sampleRate?: number;
  readonly bits?: number;
  readonly seconds?: number;
}

const sine = ({ hz, db, sampleRate = 48_000, bits = 16, seconds = 1 }: Tone): Float32Array =>
  Float32Array.from({ length: seconds * sampleRate }, (_, n) =>
    quantise(amplitudeOf(db) * Math.sin((2 * Math.PI * hz * n) / sampleRate + 0.1), bits),
  );

const clippedOf = (samples: Float32Array, sampleRate = 48_000): number =>
  levelFacts({ samples, sampleRate }).clippedSamples;

const longestRunAtPeak = (samples: Float32Array): number => {
  const peak = samples.reduce((a, b) => Math.max(a, b));
  let longest = 0;
  for (let n = 0, run = 0; n < samples.length; n++)
    longest = Math.max(longest, (run = samples[n] === peak ? run + 1 : 0));
  return longest;
};

describe("peak and silence", () => {
  it("the peak of a half-scale sample is -6.02 dBFS, on either side of zero", () => {
    // 20 log10(1/2), exact to double rounding.
    for (const value of [0.5, -0.5]) {
      expect(levelFacts({ samples: Float32Array.of(0, value, 0), sampleRate: 48_000 }).peakDbfs).toBeCloseTo(
        -6.0206,
        4,
      );
    }
  });

  it("no samples and digital zero are silent and have no peak level", () => {
    for (const length of [0, 1, 48_000]) {
      const facts = levelFacts({ samples: new Float32Array(length), sampleRate: 48_000 });
      expect(facts).toEqual({ peakDbfs: null, clippedSamples: 0, offset: 0, silent: true });
    }
  });

  it("the toggling last bit of 16, and a constant offset, are silent; two bits are not", () => {
    const toggling = (steps: number): boolean =>
      levelFacts({
        samples: Float32Array.from({ length: 99 }, (_, n) => (((n % 3) - 1) * steps) / 32_768),
        sampleRate: 48_000,
      }).silent;
    expect(toggling(1)).toBe(true);
    expect(toggling(2)).toBe(false);
    const offset = levelFacts({ samples: new Float32Array(99).fill(0.01), sampleRate: 48_000 });
    expect(offset.silent).toBe(true);
    expect(offset.peakDbfs).toBeCloseTo(-40, 4);
  });
});

describe("natural crests are not clipping", () => {
  it("a 20 Hz sine at -1 dBFS in 16 bits repeats its highest value, and is not clipped", () => {
    // Seven levels from -1 dBFS down, a sixth of a step apart, so that the crest meets every rounding.
    const crests = Array.from({ length: 7 }, (_, n) => sine({ hz: 20, db: -1 - n * 0.00005 }));
    // A crest of 29204 steps stays within one step for 2 sqrt(2/29204) / (2 pi 20/48000) = 6.3 samples.
    expect(Math.max(...crests.map(longestRunAtPeak))).toBe(6);
    expect(crests.map((samples) => clippedOf(samples))).toEqual(crests.map(() => 0));
  });

  it("sines of 5 Hz to 2 kHz, 8 to 24 bits, 44.1 to 192 kHz, -20 dBFS to full scale, are not clipped", () => {
    for (const sampleRate of [44_100, 192_000]) {
      for (const bits of [8, 12, 16, 24]) {
        for (const db of [-20, -6, -1, -0.1]) {
          for (const hz of [5, 20, 31.3, 50, 200, 441, 2000]) {
            const samples = sine({ hz, db, sampleRate, bits, seconds: 0.25 });
            expect(clippedOf(samples, sampleRate), `${hz} Hz ${db} dB ${bits} bit ${sampleRate}`).toBe(0);
          }
        }
      }
    }
  });

  it("16 bits raised by 20 dB after the recording keep their long steps and are not clipped", () => {
    for (const hz of [5, 20, 50, 200, 441]) {
      const raised = sine({ hz, db: -20.5 }).map((value) => 10 * value);
      expect(clippedOf(raised), `${hz} Hz`).toBe(0);
    }
  });

  it("a bass flattened as far as a third harmonic can is not clipped", () => {
    for (const hz of [15, 20, 30, 45]) {
      const samples = Float32Array.from({ length: 48_000 }, (_, n) => {
        const angle = (2 * Math.PI * hz * n) / 48_000;
        return quantise(0.9 * (Math.cos(angle) - Math.cos(3 * angle) / 9), 16);
      });
      expect(longestRunAtPeak(samples)).toBeGreaterThan(10);
      expect(clippedOf(samples), `${hz} Hz`).toBe(0);
    }
  });

  it("loud noise that just fits is not clipped", () => {
    const normal = seededNormal(3);
    const samples = Float32Array.from({ length: 480_000 }, () => quantise(0.19 * normal(), 16));
    expect(levelFacts({ samples, sampleRate: 48_000 }).peakDbfs).toBeLessThan(0);
    expect(clippedOf(samples)).toBe(0);
  });
});

describe("clipping is found at full scale and below", () => {
  const overdriven = (hz: number, overDb: number, rail: number, bits = 16): Float32Array =>
    Float32Array.from({ length: 48_000 }, (_, n) => {
      const value = rail * amplitudeOf(overDb) * Math.sin((2 * Math.PI * hz * n) / 48_000 + 0.1);
      return quantise(Math.max(-rail, Math.min(rail, value)), bits);
    });

  it("a sine driven 3 dB over is held at the rail for half of its time: every held sample counts", () => {
    for (const rail of [1, 0.97, 0.5, 0.15]) {
      // Within 2 acos(10^(-3/20)) / pi of each half period; each of the 200 runs may gain or lose one sample.
      const share = (2 * Math.acos(amplitudeOf(-3))) / Math.PI;
      expect(Math.abs(clippedOf(overdriven(100, 3, rail)) - share * 48_000), `rail ${rail}`).toBeLessThanOrEqual(200);
    }
  });

  it("a low sine driven 0.01 dB over full scale is found, in 16 and 24 bits", () => {
    for (const bits of [16, 24]) {
      for (const hz of [20, 40, 80]) expect(clippedOf(overdriven(hz, 0.01, 1, bits)), `${hz} Hz`).toBeGreaterThan(0);
    }
  });

  it("only one rail may be touched, as with an offset before the converter", () => {
    const samples = overdriven(100, 3, 0.8).map((value) => (value < 0 ? value * 0.7 : value));
    const share = Math.acos(amplitudeOf(-3)) / Math.PI;
    const upperOnly = Float32Array.from({ length: 48_000 }, (_, n) =>
      Math.min(0.8, 1.13 * Math.sin((2 * Math.PI * 100 * n) / 48_000) - 0.05),
    );
    expect(clippedOf(upperOnly)).toBeGreaterThan(0.8 * share * 48_000);
    expect(clippedOf(samples)).toBeGreaterThan(1.5 * share * 48_000);
  });

  it("clipping before a fade to a tenth is still found", () => {
    expect(clippedOf(overdriven(100, 3, 1).map((value) => 0.11 * value))).toBeGreaterThan(20_000);
  });

  it("runs at the file's own ends count, and one clipped knock in a quiet recording", () => {
    const knock = new Float32Array(1000);
    knock.set([0.2, 0.7, 1, 1, 1, 1, 0.4, -0.2], 500);
    expect(clippedOf(knock)).toBe(4);
    expect(clippedOf(Float32Array.of(1, 1, 1, 0, -0.5, 0.3))).toBe(3);
    expect(clippedOf(Float32Array.of(0.3, -0.5, 0.2, -1, -1, -1))).toBe(3);
  });

  it("two equal samples are not a run", () => {
    expect(clippedOf(Float32Array.of(0, 0.5, 1, 1, 0.5, 0))).toBe(0);
  });
});
