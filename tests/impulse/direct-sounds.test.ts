import { describe, expect, it } from "vitest";
import { absolutePolarity } from "../../src/impulse/absolute-polarity.js";
import { clockByShape } from "../../src/impulse/clock-by-shape.js";
import { reflectedCoherence } from "../../src/impulse/reflected-coherence.js";
import { comparePolarity } from "../../src/impulse/same-polarity.js";
import { unlikenessDb } from "../../src/impulse/unlikeness.js";
import { inverseReal } from "../../src/dsp/fft.js";
import type { ImpulseResponse } from "../../src/model.js";
import { whiteNoise } from "../known-recording.js";

const sampleRate = 48_000;
const SIZE = 8192;
const ARRIVAL = 1000;

/** A response given by its spectrum from the arrival on, band-limited to 20 kHz. */
function responseOf(at: (hz: number) => readonly [re: number, im: number]): ImpulseResponse {
  const spectrum = new Float64Array(SIZE + 2);
  for (let k = 0; k <= SIZE / 2; k++) {
    const hz = (k * sampleRate) / SIZE;
    const edge = hz > 20_000 ? Math.max(0, (22_000 - hz) / 2000) : 1;
    const [re, im] = at(hz);
    const turn = (-2 * Math.PI * k * ARRIVAL) / SIZE;
    spectrum[2 * k] = edge * (re * Math.cos(turn) - im * Math.sin(turn));
    spectrum[2 * k + 1] = edge * (re * Math.sin(turn) + im * Math.cos(turn));
  }
  return known(inverseReal(spectrum));
}

function known(samples: Float64Array): ImpulseResponse {
  return { samples, sampleRate, arrivalSample: ARRIVAL, polarity: 1, sweptHz: [20, 20_000], noise: null };
}

/** A woofer's box: second order at 50 Hz, Butterworth. */
function woofer(hz: number, sign: 1 | -1 = 1): readonly [number, number] {
  const x = hz / 50;
  const [re, im] = [1 - x * x, Math.SQRT2 * x];
  const size = re * re + im * im;
  return [(-sign * x * x * re) / size, (sign * x * x * im) / size];
}

const delayed = ({ samples, ...rest }: ImpulseResponse, by: number, gain: number): ImpulseResponse => ({
  ...rest,
  samples: samples.map((_, n) => gain * (samples[n - by] ?? 0)),
});

function plus(a: ImpulseResponse, b: ImpulseResponse): ImpulseResponse {
  return known(a.samples.map((value, n) => value + b.samples[n]!));
}

describe("Which way a loudspeaker pushes", () => {
  const forward = responseOf((hz) => woofer(hz));
  const backward = responseOf((hz) => woofer(hz, -1));

  it("is told by the phase of one without crossover, and of one with a reflection of half its strength", () => {
    expect([absolutePolarity(forward), absolutePolarity(backward)]).toEqual([1, -1]);
    expect(absolutePolarity(plus(forward, delayed(forward, 100, -0.5)))).toBe(1);
  });

  it("is not told where a crossover at 600 Hz has turned the phase through", () => {
    // An all-pass of second order, as a crossover of 24 dB per octave leaves behind.
    const crossed = responseOf((hz) => {
      const x = hz / 600;
      const [a, b] = [1 - x * x, Math.SQRT2 * x];
      const size = a * a + b * b;
      const [pr, pi] = [(a * a - b * b) / size, (-2 * a * b) / size];
      const [re, im] = woofer(hz);
      return [re * pr - im * pi, re * pi + im * pr];
    });
    expect(absolutePolarity(crossed)).toBeNull();
    const turned = delayed(crossed, 0, -0.7);
    expect(comparePolarity(crossed, turned)).toEqual({ same: false, isSure: true });
    expect(comparePolarity(crossed, delayed(crossed, 3, 0.7))).toEqual({ same: true, isSure: true });
  });
});

describe("What one response does not explain of another", () => {
  const direct = responseOf(() => [1, 0]);

  it("is nothing of a copy with another gain and delay", () => {
    // Arithmetic of 64-bit floats and a delay read to a hundred-thousandth of a sample.
    expect(unlikenessDb(direct, delayed(direct, 7, 0.2))).toBeLessThan(-70);
  });

  it("is the share of a reflection that only one has", () => {
    // One sample at full and one at gain g, far apart: of the energy 1 + g^2 the copy explains 1.
    const gain = 0.1;
    const other = plus(direct, delayed(direct, 400, gain));
    const expected = 10 * Math.log10(gain ** 2 / (1 + gain ** 2));
    // Cross terms of two band-limited sounds 8 ms apart stay under a tenth of the gain, 0.9 dB.
    expect(Math.abs(unlikenessDb(direct, other)! - expected)).toBeLessThan(0.9);
  });

  it("is all between strangers, and not known across sample rates", () => {
    const [a, b] = [4, 5].map((seed) => known(whiteNoise(SIZE, seed)));
    // The best of all delays over 22 ms of noise explains a few per cent by chance.
    expect(unlikenessDb(a!, b!)).toBeGreaterThan(-1);
    expect(unlikenessDb(direct, { ...direct, sampleRate: 96_000 })).toBeNull();
  });
});

describe("How far reflections agree", () => {
  const room = known(whiteNoise(SIZE, 6));

  it("is all for the same place and nothing for a stranger", () => {
    expect(reflectedCoherence(room, room, 4000)).toBeCloseTo(1, 10);
    // 27 ms of an octave at 4 kHz hold some 75 independent pairs of values: 0.1 by chance, one standard deviation.
    expect(Math.abs(reflectedCoherence(room, known(whiteNoise(SIZE, 7)), 4000)!)).toBeLessThan(0.3);
  });

  it("is as much as they have in common", () => {
    const other = whiteNoise(SIZE, 8);
    const half = known(room.samples.map((value, n) => Math.SQRT1_2 * (value + other[n]!)));
    expect(Math.abs(reflectedCoherence(room, half, 4000)! - Math.SQRT1_2)).toBeLessThan(0.2);
  });

  it("is not known where the octave was not swept", () => {
    expect(reflectedCoherence({ ...room, sweptHz: [20, 4000] }, room, 4000)).toBeNull();
  });
});

describe("The clock that makes a direct sound sharpest", () => {
  const GROWTH_S = 1.4;

  it.each([-1000, 1000, 3000])("is told for a recording that lasts %d ppm longer", (ppm) => {
    // At frequency f a clock off by e delays by e L ln f.
    const smeared = responseOf((hz) => {
      const angle = hz === 0 ? 0 : -2 * Math.PI * ppm * 1e-6 * GROWTH_S * hz * (Math.log(hz / 2800) - 1);
      return [Math.cos(angle), Math.sin(angle)];
    });
    const { ratio, gainDb } = clockByShape(smeared, GROWTH_S);
    // An eighth of a step of 103 ppm either way.
    expect(Math.abs(1e6 * (ratio - 1) - ppm)).toBeLessThan(15);
    expect(gainDb).toBeGreaterThan(3);
  });

  it("is the right one for a sharp direct sound", () => {
    expect(
      clockByShape(
        responseOf(() => [1, 0]),
        GROWTH_S,
      ).gainDb,
    ).toBeLessThan(0.1);
  });
});
