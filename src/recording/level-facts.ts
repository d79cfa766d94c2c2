import type { Signal } from "../model.js";

export interface LevelFacts {
  /** Largest magnitude re full scale; null when every sample is zero. */
  readonly peakDbfs: number | null;
  readonly clippedSamples: number;
  /** Mean of all samples, full scale 1: what the converter adds to silence. */
  readonly offset: number;
  readonly silent: boolean;
}

/** The last bit of 16: a file that only toggles it, or holds a constant, carries no sound. */
const SILENT_HALF_SWING = 10 ** (-90 / 20);
const SHORTEST_RUN = 3;
/** Clipping may have happened before a gain, but further down equal samples begin to be a matter of chance. */
const LOWEST_CLIP = 0.1;
/** A converter's rail is one value; rounding after a gain moves it by far less than this share. */
const RAIL_WIDTH = 1e-3;
/** What a natural crest falls by at most where the run of equal samples is left, in steps, with room to spare. */
const FALL_STEPS = 32;
const STEP_16_BIT = 1 / 32_768;
/** Eight bits; without this bound a wave that only ever jumps would pass its jump off as its step. */
const COARSEST_STEP = 1 / 128;

/**
 * Says how high a recording reaches, how many samples were clipped, and whether it holds any sound.
 *
 * Clipped is a run of at least 3 equal samples within 0.1 % of the highest (or lowest) value of the signal, itself at
 * least 0.1 of full scale, out of which the signal falls at once: within half the run's length beyond each end it
 * leaves the run's value by more than 32 steps. The step is that of 16 bits, or the smallest difference between
 * neighbours where that is larger (16 bits after a gain). A natural crest repeats a value as well, since rounding
 * flattens its top (20 Hz at 48 kHz and 16 bits: 6 times), but it is a parabola: a top that stays within one step over
 * `n` samples has fallen by 4 steps (9 at `n = 3`) half a run further on, by 16 where a third harmonic flattens it as
 * much as one can. A clipped sine leaves with a slope: by 1.5 times the angle squared, so the rule sees it from 0.03 %
 * (0.003 dB) above the rail on at full scale. Not seen: clipping so short that no three samples are alike (a sine
 * driven 1 dB over: above a twentieth of the sample rate), and clipping that a later filter has reshaped.
 *
 * @param signal - any length; finite samples
 * @returns no samples give peak null, silent. Silent: half the distance from lowest to highest sample is under -90 dBFS
 * @remarks Source: own derivation (above). Linear time.
 * @example levelFacts({ samples: new Float32Array(8), sampleRate: 48_000 }) // { peakDbfs: null, clippedSamples: 0, offset: 0, silent: true }
 */
export function levelFacts({ samples }: Signal): LevelFacts {
  if (samples.length === 0) return { peakDbfs: null, clippedSamples: 0, offset: 0, silent: true };
  const { highest, lowest, sum } = extremesOf(samples);
  const peak = Math.max(highest, -lowest);
  return {
    peakDbfs: peak > 0 ? 20 * Math.log10(peak) : null,
    clippedSamples: countClipped(samples, highest, lowest),
    offset: sum / samples.length,
    silent: (highest - lowest) / 2 < SILENT_HALF_SWING,
  };
}

function extremesOf(samples: Float32Array | Float64Array): { highest: number; lowest: number; sum: number } {
  let highest = -Infinity;
  let lowest = Infinity;
  let sum = 0;
  for (let n = 0; n < samples.length; n++) {
    const value = samples[n]!;
    // No branches: those that are taken late have the loop compiled anew.
    highest = Math.max(highest, value);
    lowest = Math.min(lowest, value);
    sum += value;
  }
  return { highest, lowest, sum };
}

function countClipped(samples: Float32Array | Float64Array, highest: number, lowest: number): number {
  const upper = highest >= LOWEST_CLIP ? highest * (1 - RAIL_WIDTH) : Infinity;
  const lower = lowest <= -LOWEST_CLIP ? lowest * (1 - RAIL_WIDTH) : -Infinity;
  let limit: number | null = null;
  let clipped = 0;
  for (let n = 0; n < samples.length;) {
    const value = samples[n]!;
    const start = n++;
    if (value < upper && value > lower) continue;
    while (n < samples.length && samples[n] === value) n++;
    const run = n - start;
    if (run < SHORTEST_RUN || run === samples.length) continue;
    limit ??= FALL_STEPS * Math.max(STEP_16_BIT, Math.min(smallestStep(samples), COARSEST_STEP));
    if (leavesAtOnce(samples, start, n, limit)) clipped += run;
  }
  return clipped;
}

/** Smallest first or second difference: a clean tone whose crests are cut off has slopes everywhere, but even ones. */
function smallestStep(samples: Float32Array | Float64Array): number {
  let smallest = Infinity;
  let slope = 0;
  for (let n = 1; n < samples.length; n++) {
    const previous = slope;
    slope = samples[n]! - samples[n - 1]!;
    // What lies below is no step of 16 bits but the rounding of a later gain.
    const first = Math.abs(slope);
    if (first > STEP_16_BIT / 2 && first < smallest) smallest = first;
    const second = Math.abs(slope - previous);
    if (second > STEP_16_BIT / 2 && second < smallest) smallest = second;
  }
  return smallest;
}

/** Whether the signal leaves the run of equal samples `start` to `end` (exclusive) faster than a crest would. */
function leavesAtOnce(samples: Float32Array | Float64Array, start: number, end: number, limit: number): boolean {
  const value = samples[start]!;
  const reach = Math.ceil((end - start) / 2);
  const falls = (from: number, to: number): boolean => {
    for (let n = from; n < to; n++) if (Math.abs(samples[n]! - value) > limit) return true;
    return false;
  };
  // Where the file begins or ends inside the run, the other side decides alone.
  const before = start === 0 || falls(Math.max(0, start - reach), start);
  return before && (end === samples.length || falls(end, Math.min(samples.length, end + reach)));
}
