import { blockPower, hann, sumOfBins } from "../dsp/block-power.js";
import { energyOf } from "../dsp/energy.js";
import type { Signal } from "../model.js";

const FRAME = 1024;
const BAND_HZ = [200, 10_000] as const;
/** So much of the silence is looked at. */
const LONGEST_S = 4;
/** Fewer frames have no tenth part that could be told. */
const LEAST_FRAMES = 20;
const HIGH = 0.9;
/** Noise of fewer different samples is rounding, not sound; so is what lies this far under full scale, below 24 bits. */
const LEAST_VALUES = 32;
const LEAST_RMS = 10 ** (-130 / 20);

/**
 * How far the loud moments of a silence stand over its usual level at the same frequency: the median over frequencies.
 *
 * Noise that went through what suppresses noise, or through a codec, has holes: at each frequency it is far softer than before,
 * but for the moments that were let through. Only the softer half of the frames counts, those in which nobody spoke or moved.
 *
 * @param from - where the silence begins
 * @param to - where it ends
 * @returns dB from the median of a frequency's power to its 90th percentile: 5.2 for steady noise, 8 and more for noise with
 *   holes; null where the silence is too short or is no sound
 * @remarks Source: the power of Gaussian noise at one frequency is distributed exponentially: 10 lg(ln 10 / ln 2) = 5.21 dB. To
 *   tell processing by it is an idea of ours.
 */
export function unevennessDb({ samples, sampleRate }: Signal, from: number, to: number): number | null {
  const first = Math.ceil((BAND_HZ[0] * FRAME) / sampleRate);
  const last = Math.floor((BAND_HZ[1] * FRAME) / sampleRate);
  const begin = Math.max(0, Math.ceil(from), Math.ceil(to - LONGEST_S * sampleRate));
  const frames: { total: number; powers: Float64Array }[] = [];
  const powerFrom = blockPower(hann(FRAME), FRAME);
  for (let start = begin; start + FRAME <= Math.min(to, samples.length); start += FRAME / 2) {
    const power = powerFrom(samples, start);
    frames.push({ total: sumOfBins(power, first, last), powers: power.slice(first, last + 1) });
  }
  if (frames.length < LEAST_FRAMES || !isSound(samples.subarray(begin, Math.floor(to)))) return null;
  const quiet = frames.sort((a, b) => a.total - b.total).slice(0, Math.ceil(frames.length / 2));
  const spreads = quiet[0]!.powers.map((_, k) => {
    const own = quiet.map(({ powers }) => powers[k]!).sort((a, b) => a - b);
    return 10 * Math.log10(own[Math.floor(HIGH * own.length)]! / own[own.length >> 1]!);
  });
  spreads.sort((a, b) => a - b);
  const median = spreads[spreads.length >> 1]!;
  return Number.isFinite(median) ? median : null;
}

function isSound(samples: Signal["samples"]): boolean {
  const values = new Set<number>();
  for (let n = 0; n < samples.length && values.size < LEAST_VALUES; n++) values.add(samples[n]!);
  return values.size >= LEAST_VALUES && energyOf(samples) > LEAST_RMS ** 2 * samples.length;
}
