import { columnSpace } from "../../../src/dsp/linear-algebra.js";
import type { LowResponse } from "../../../src/metrics/modes/low-response.js";
import { MODE_RANGE_HZ } from "../../../src/metrics/modes/sub-band.js";
import { Random } from "../../../src/simulate/random.js";

const sampleRate = 1000;
const LENGTH_S = 2.5;

/** A mode of known truth: exp(-6.9 t / T) times a cosine from the arrival on. */
export interface KnownMode {
  readonly frequencyHz: number;
  readonly t60S: number;
  readonly amplitude: number;
  readonly phase: number;
}

export interface Draw {
  readonly modes: readonly KnownMode[];
  readonly response: LowResponse;
  /** Standard deviation of the noise, one sample at the low rate. */
  readonly noise: number;
}

/**
 * Four modes 4 to 20 Hz apart, 0.3 to 1.5 s, in white noise; the strongest has amplitude 1.
 *
 * @param weakestDb - the other three lie evenly drawn between this and 0 dB
 * @param noiseDb - of the noise between 20 and 290 Hz, RMS, re the strongest's amplitude at its start
 */
export function fourModes(seed: number, weakestDb: number, noiseDb: number): Draw {
  const random = new Random(seed);
  const between = (from: number, to: number): number => from + (to - from) * random.uniform();
  const gaps = [0, 0, 0].map(() => between(4, 20));
  const lowest = between(24, MODE_RANGE_HZ[1] - 10 - gaps.reduce((a, b) => a + b, 0));
  const strongest = Math.floor(between(0, 4));
  const modes = [0, 1, 2, 3].map((k) => ({
    frequencyHz: lowest + gaps.slice(0, k).reduce((a, b) => a + b, 0),
    t60S: between(0.3, 1.5),
    amplitude: k === strongest ? 1 : 10 ** (between(weakestDb, 0) / 20),
    phase: between(-Math.PI, Math.PI),
  }));
  return { modes, ...responseOf(modes, noiseDb, random) };
}

export function responseOf(
  modes: readonly KnownMode[],
  noiseDb: number,
  random: Random,
): { response: LowResponse; noise: number } {
  const bandShare = (MODE_RANGE_HZ[1] - MODE_RANGE_HZ[0]) / (sampleRate / 2);
  const noise = 10 ** (noiseDb / 20) / Math.sqrt(bandShare);
  const samples = random.fillNormal(new Float64Array(Math.round(LENGTH_S * sampleRate)));
  for (let n = 0; n < samples.length; n++) {
    samples[n]! *= noise;
    for (const mode of modes) samples[n]! += ringing(mode, n / sampleRate);
  }
  // Of N samples of white noise the squared spectrum is N times the variance: per second, the rate times it.
  const powerPerSecond = new Float64Array(2).fill(noise * noise * sampleRate);
  const known = { frequencyHz: Float64Array.of(1, 500), powerPerSecond };
  return { response: { samples, sampleRate, fullRate: sampleRate, noise: known, sweptHz: [15, 20_000] }, noise };
}

function ringing({ frequencyHz, t60S, amplitude, phase }: KnownMode, timeS: number): number {
  return amplitude * Math.exp((-Math.log(1000) * timeS) / t60S) * Math.cos(2 * Math.PI * frequencyHz * timeS + phase);
}

/** What no unbiased estimator can fall below: standard deviations. */
export interface Bound {
  readonly frequencyHz: number;
  readonly t60S: number;
}

/**
 * Cramér-Rao bound of each mode's frequency and decay time, all amplitudes and phases unknown as well.
 *
 * Source: S. M. Kay, Fundamentals of Statistical Signal Processing, vol. 1 (1993), 3.7, from memory: the inverse of the slopes'
 * products over the noise's variance. Slopes by central differences.
 */
export function bounds({ modes, noise }: Draw): Bound[] {
  const keys = ["frequencyHz", "t60S", "amplitude", "phase"] as const;
  const count = Math.round(LENGTH_S * sampleRate);
  const nudge = 1e-6;
  const slopes = modes.flatMap((mode) =>
    keys.map((key) =>
      Float64Array.from({ length: count }, (_, n) => {
        const at = (step: number): number => ringing({ ...mode, [key]: mode[key] + step }, n / sampleRate);
        return (at(nudge) - at(-nudge)) / (2 * nudge);
      }),
    ),
  );
  const variances = columnSpace(slopes)!.variances();
  return modes.map((_, m) => ({
    frequencyHz: noise * Math.sqrt(variances[4 * m]!),
    t60S: noise * Math.sqrt(variances[4 * m + 1]!),
  }));
}
