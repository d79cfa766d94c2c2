import { describe, expect, it } from "vitest";
import { calibratorLevel } from "../../src/recording/calibrator.js";
import { seededNormal } from "./seeded-random.js";
import { inputErrorOf } from "./thrown-by.js";

interface Scene {
  readonly toneHz?: number;
  readonly amplitude?: number;
  readonly sampleRate?: number;
  readonly seconds?: number;
  /** RMS re the tone's RMS. */
  readonly noiseDb?: number;
  readonly humDb?: number;
  /** Seconds of loud knocks at each end. */
  readonly handlingS?: number;
  /** Amplitude of the tone over time. */
  readonly envelope?: (t: number) => number;
  readonly shape?: (value: number) => number;
}

function record(scene: Scene): { samples: Float32Array; sampleRate: number } {
  const { toneHz = 1000, amplitude = 0.05, sampleRate = 48_000, seconds = 8, noiseDb = -300, humDb = -300 } = scene;
  const { handlingS = 0, envelope = (): number => 1, shape = (value: number): number => value } = scene;
  const normal = seededNormal(11);
  const gain = (db: number): number => amplitude * 10 ** (db / 20);
  const samples = Float32Array.from({ length: seconds * sampleRate }, (_, n) => {
    const t = n / sampleRate;
    const turn = 2 * Math.PI * t;
    const tone = amplitude * envelope(t) * Math.sin(turn * toneHz + 0.3);
    const hum = gain(humDb) * (Math.sin(turn * 50) + 0.5 * Math.sin(turn * 150) + 0.2 * Math.sin(turn * 950));
    const noise = gain(noiseDb) * Math.SQRT1_2 * normal();
    const knock = t < handlingS || t > seconds - handlingS ? 0.3 * normal() * Math.sin(turn * 1.3) ** 8 : 0;
    return shape(tone + hum + noise + knock);
  });
  return { samples, sampleRate };
}

function errorDb(scene: Scene): number {
  return 20 * Math.log10(calibratorLevel(record(scene), "cal.wav").amplitude / (scene.amplitude ?? 0.05));
}

describe("the tone of a calibrator is measured", () => {
  it("a clean tone is exact, at 250 Hz and 1 kHz and off their nominal values, at any rate and level", () => {
    for (const sampleRate of [16_000, 44_100, 192_000]) {
      for (const toneHz of [248.3, 251.19, 1000, 1004.2]) {
        for (const amplitude of sampleRate === 192_000 ? [0.9] : [0.001, 0.9]) {
          const level = calibratorLevel(record({ toneHz, amplitude, sampleRate, seconds: 2 }), "cal.wav");
          // The window's side lobes (-92 dB) let the mirror image of the tone in: 10^(-92/20) = 2.5e-5 of the amplitude.
          expect(Math.abs(level.amplitude / amplitude - 1)).toBeLessThan(2.5e-5);
          expect(Math.abs(level.toneHz - toneHz)).toBeLessThan(1e-3);
        }
      }
    }
  });

  it("noise 25 dB under the tone, hum 25 dB under it and knocks at both ends move it by less than 0.02 dB", () => {
    for (const toneHz of [250.6, 1000.4]) {
      // Noise in the block's window: its equivalent width is 2.0 bins of 4 Hz, of 24 kHz: -25 - 35 + 3 dB = 0.0014 of the amplitude in
      // each block, hence 0.012 dB; over some 30 blocks 0.003 dB. The bar is 0.02 dB.
      const scene = { toneHz, noiseDb: -25, humDb: -26, handlingS: 1.5, seconds: 12 };
      expect(Math.abs(errorDb(scene))).toBeLessThan(0.02);
      expect(Math.abs(calibratorLevel(record(scene), "cal.wav").toneHz - toneHz)).toBeLessThan(0.01);
    }
  });

  it("silence before the calibrator is switched on and after it, and a slow onset, do not count", () => {
    const envelope = (t: number): number => (t < 3 || t > 9 ? 0.0001 : 1 - Math.exp(-(t - 3) / 0.15));
    expect(Math.abs(errorDb({ seconds: 14, noiseDb: -40, envelope }))).toBeLessThan(0.02);
  });

  it("a level that wanders by 0.15 dB is averaged as power", () => {
    const envelope = (t: number): number => 10 ** ((0.07 * Math.sin(2 * Math.PI * 0.9 * t)) / 20);
    expect(Math.abs(errorDb({ envelope }))).toBeLessThan(0.02);
  });

  it("the tone's own distortion of 3 % and a constant offset do not count", () => {
    const shape = (value: number): number => value + 0.01 + 20 * 0.03 * value ** 2;
    // Second harmonic: 0.5 * 0.6 * A = 1.5 % of A at A = 0.05; nothing is added at the tone's own frequency.
    expect(Math.abs(errorDb({ shape }))).toBeLessThan(0.001);
  });
});

describe("a recording that does not give a level is refused with reason", () => {
  const refusal = (scene: Scene): string => {
    const error = inputErrorOf(() => calibratorLevel(record(scene), "cal.wav"));
    expect(error.where).toMatch(/^cal\.wav/);
    expect(error.remedy).toMatch(/again/);
    return error.message;
  };
  it.each<[string, Scene, RegExp]>([
    ["silence", { amplitude: 0 }, /silent/],
    ["too short", { seconds: 1.5 }, /1\.50 s; 2 s/],
    ["noise alone", { amplitude: 1e-9, handlingS: 4 }, /20 dB above the rest/],
    ["hum where the calibrator should be", { toneHz: 50 }, /250 or 1000 Hz/],
    ["a tone that is no calibrator's", { toneHz: 440 }, /250 or 1000 Hz/],
    ["noise 18 dB under the tone", { noiseDb: -18 }, /20 dB above the rest/],
    ["a level that drifts by 0.4 dB", { envelope: (t) => 10 ** ((0.05 * t * 1.67) / 20) }, /varies by 0\.\d\d dB/],
    ["a level that steps by 0.3 dB", { envelope: (t) => (t < 4 ? 1 : 10 ** (-0.3 / 20)) }, /varies by 0\.30 dB/],
    ["a tone just clipped", { amplitude: 1.02, shape: (v) => Math.max(-1, Math.min(1, v)) }, /tone is clipped/],
    ["a tone far clipped", { amplitude: 3, shape: (v) => Math.max(-1, Math.min(1, v)) }, /clipped/],
    ["a tone of half a second", { envelope: (t) => (t < 4 || t > 4.5 ? 1e-4 : 1), noiseDb: -45 }, /for 2 s/],
  ])("%s", (_, scene, what) => {
    expect(refusal(scene)).toMatch(what);
  });

  it("18 dB of noise is refused and 22 dB is not: the limit is where it is said to be", () => {
    expect(() => errorDb({ noiseDb: -22 })).not.toThrow();
    expect(() => errorDb({ noiseDb: -18 })).toThrow();
  });
});
