import { describe, expect, it } from "vitest";
import { analyticBand, envelopeOf, parabolicPeak } from "../../src/dsp/analytic-band.js";
import { decimate } from "../../src/dsp/decimate.js";
import { delayBetween } from "../../src/dsp/delay-between.js";
import { fractionalShift } from "../../src/dsp/fractional-shift.js";
import { frequencyGrid } from "../../src/dsp/frequency-grid.js";
import { fractionalOctaveEdges, logPower } from "../../src/dsp/log-power.js";
import { noiseDensity, noisePower } from "../../src/impulse/noise.js";
import { rms, whiteNoise } from "../known-recording.js";

const sampleRate = 48_000;
const tone = (hz: number, count: number): Float64Array =>
  Float64Array.from({ length: count }, (_, n) => Math.cos((2 * Math.PI * hz * n) / sampleRate));

describe("the frequency grid", () => {
  it("holds 1 kHz and rises by the 320th root of ten from 20 Hz to 20 kHz", () => {
    const grid = frequencyGrid();
    expect(grid).toContain(1000);
    expect(grid[1]! / grid[0]!).toBeCloseTo(10 ** (1 / 320), 12);
    expect(grid[0]).toBeCloseTo(19.95, 2);
    expect(grid.at(-1)).toBeCloseTo(19_952.6, 1);
  });
});

describe("the mean over log frequency", () => {
  it("of a flat spectrum is flat, of 1/f is its mean", () => {
    const flat = logPower(new Float64Array(2049).fill(3), 10);
    expect(flat.mean(25, 31)).toBeCloseTo(3, 12);
    const falling = logPower(
      Float64Array.from({ length: 40_001 }, (_, k) => 1 / Math.max(k, 1)),
      0.5,
    );
    // Integral of 1/f over ln f: (1/a - 1/b) / ln(b/a), at bins of half a hertz k = 2 f. Trapezoids at 200 bins: 1e-5.
    const [a, b] = fractionalOctaveEdges(1000, 1);
    expect(falling.mean(a, b) / ((1 / (2 * a) - 1 / (2 * b)) / Math.log(b / a))).toBeCloseTo(1, 5);
  });

  it("has 1/24 octave as ten to the 1/80", () => {
    const [from, to] = fractionalOctaveEdges(1000, 24);
    expect(to / from).toBeCloseTo(10 ** (1 / 80), 12);
  });
});

describe("the arrival band", () => {
  it("passes 1 to 8 kHz as it is, nothing half an octave outside, and moves nothing in time", () => {
    const envelopeAt = (hz: number): number => envelopeOf(analyticBand(tone(hz, 4096), sampleRate, 4))[8192]!;
    // Tones of whole cycles in the window: no leakage, rounding alone.
    const whole = (hz: number): number => (Math.round((hz * 4096) / sampleRate) * sampleRate) / 4096;
    for (const hz of [1050, 3000, 7900]) expect(envelopeAt(whole(hz))).toBeCloseTo(1, 9);
    for (const hz of [690, 11_400]) expect(envelopeAt(whole(hz))).toBeLessThan(1e-9);
    const pulse = new Float64Array(4096);
    pulse[1500] = 1;
    const envelope = envelopeOf(analyticBand(pulse, sampleRate, 4));
    const top = envelope.indexOf(envelope.reduce((a, b) => Math.max(a, b)));
    expect(parabolicPeak(envelope, top).at / 4).toBeCloseTo(1500, 6);
  });
});

describe("decimation", () => {
  it("keeps a low tone and its place, and removes what would fold onto it", () => {
    const kept = decimate(tone(500, 48_000), 12);
    let worst = 0;
    for (let n = 100; n < kept.length - 100; n++) {
      worst = Math.max(worst, Math.abs(kept[n]! - Math.cos((2 * Math.PI * 500 * 12 * n) / sampleRate)));
    }
    // The search and the end of a decay need no more than a percent.
    expect(worst).toBeLessThan(0.01);
    expect(rms(decimate(tone(3900, 48_000), 12), 100, 3900)).toBeLessThan(0.01);
  });
});

describe("a delay between two equal sounds", () => {
  it.each([0, 0.31, -7.77, 123.4])("of %d samples is found to a thousandth", (delay) => {
    const sound = new Float64Array(8192);
    sound.set(whiteNoise(2000, 4), 3000);
    const found = delayBetween(sound, fractionalShift(sound, delay), sampleRate, [300, 10_000]);
    expect(Math.abs(found.samples - delay)).toBeLessThan(1e-3);
    // Read at the nearest whole sample: half a sample is 38 degrees at 10 kHz, and costs 7 % over a flat band from 300 Hz.
    expect(found.correlation).toBeGreaterThan(0.92);
  });

  it("carries an uncertainty that noise makes true", () => {
    const sound = new Float64Array(8192);
    sound.set(whiteNoise(2000, 4), 3000);
    const errors: number[] = [];
    let stated = 0;
    for (let seed = 1; seed <= 40; seed++) {
      const noisy = [2 * seed, 2 * seed + 1].map((own) => {
        const noise = whiteNoise(8192, own);
        return sound.map((value, n) => value + 0.3 * noise[n]!);
      });
      const found = delayBetween(noisy[0]!, noisy[1]!, sampleRate, [300, 10_000]);
      errors.push(found.samples);
      stated += found.uncertaintySamples / 40;
    }
    // 40 trials know their own scatter to 11 %; the statement is a first-order one.
    expect(stated / rms(errors)).toBeGreaterThan(0.6);
    expect(stated / rms(errors)).toBeLessThan(1.7);
  });
});

describe("the noise of a silence", () => {
  it("of white noise has its mean square spread evenly over frequency", () => {
    const noise = noiseDensity({ samples: whiteNoise(96_000, 6), sampleRate }, 0, 96_000)!;
    // 2 s: 4 segments and their overlaps over the whole band.
    expect(noisePower(noise, 0, 24_000)).toBeCloseTo(1, 1);
    expect(noisePower(noise, 2000, 8000)).toBeCloseTo(0.25, 1);
  });

  it("is not known from less than a fifth of a second", () => {
    expect(noiseDensity({ samples: whiteNoise(9000, 6), sampleRate }, 0, 9000)).toBeNull();
  });
});
