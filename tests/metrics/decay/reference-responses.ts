import { existsSync, readFileSync } from "node:fs";
import type { ImpulseResponse } from "../../../src/model.js";
import { decodeWav } from "../../../src/recording/decode-wav.js";

const data = new URL("../../../../shared/data/", import.meta.url);

export const measuredPresent = existsSync(data);

export function impulseOf(samples: Float64Array, sampleRate: number, arrivalSample = 0): ImpulseResponse {
  return { samples, sampleRate, arrivalSample, polarity: 1, sweptHz: [1, sampleRate / 2], noise: null };
}

/** One channel of a measured file, named "folder/file.wav#channel"; starts 20 dB below its peak, ISO 3382-1 A.2.1. */
export function measuredResponse(name: string): ImpulseResponse {
  const [file, channel] = name.split("#") as [string, string];
  const audio = decodeWav(readFileSync(new URL(file.replaceAll("+", "%2B"), data)), file);
  const samples = Float64Array.from(audio.channels[Number(channel)]!);
  const peak = samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  return impulseOf(
    samples,
    audio.sampleRate,
    samples.findIndex((value) => Math.abs(value) >= 0.1 * peak),
  );
}

/** Uniform noise from a linear congruential generator, as in tests/scripts/decay-reference.py. */
function congruentialNoise(seed: number, count: number): Float64Array {
  let state = seed;
  return Float64Array.from({ length: count }, () => {
    state = (Math.imul(1664525, state) + 1013904223) >>> 0;
    return state / 2 ** 32 - 0.5;
  });
}

const SAMPLE_RATE = 48_000;
const COUNT = 72_000;

function falling(seed: number, timeS: number, gain = 1): Float64Array {
  return congruentialNoise(seed, COUNT).map(
    (value, n) => gain * value * Math.exp((-3 * Math.LN10 * n) / (SAMPLE_RATE * timeS)),
  );
}

function sum(a: Float64Array, b: Float64Array): Float64Array {
  return a.map((value, n) => value + b[n]!);
}

/** The synthetic responses of tests/scripts/decay-reference.py. */
export function syntheticResponse(name: string): ImpulseResponse | null {
  const make: Record<string, () => Float64Array> = {
    "single slope 0.3 s": () => falling(1, 0.3),
    "single slope 0.8 s": () => falling(2, 0.8),
    "slope 0.4 s over noise": () =>
      sum(
        falling(3, 0.4),
        congruentialNoise(4, COUNT).map((value) => 1e-3 * value),
      ),
    "double slope": () => sum(falling(5, 0.25), falling(6, 0.9, 0.05)),
  };
  const samples = make[name]?.();
  return samples ? impulseOf(samples, SAMPLE_RATE) : null;
}
