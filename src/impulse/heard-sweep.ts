import { hann } from "../dsp/block-power.js";
import { forwardReal } from "../dsp/fft.js";
import type { Signal } from "../model.js";

/** An exponential sweep as a recording has it, whoever made it. */
export interface HeardSweep {
  /** Time in which its frequency grows by e, on the recorder's clock. */
  readonly growthS: number;
  /** Where it stands out first and last; a weak end of a loudspeaker hides the sweep's own. */
  readonly fromHz: number;
  readonly toHz: number;
  /** When it passes those, file seconds. */
  readonly fromS: number;
  readonly toS: number;
}

const WINDOW_S = 0.085;
const STEP_S = 0.02;
/** Longer recordings are looked at in longer steps. */
const MOST_FRAMES = 6000;
const LOWEST_HZ = 20;
/** Growth of a sweep of a second to one of two minutes over ten octaves. */
const LEAST_GROWTH_S = 0.1;
const MOST_GROWTH_S = 20;
const GROWTH_STEP = 1.015;
/** A frame lies on the line when its frequency is right to 6 %, and to a third of a bin. */
const NEAR = 0.06;
const NEAR_BINS = 0.3;
/** So much of the way has to be heard, over so many octaves at least: music and noise follow no such line. */
const LEAST_COVERAGE = 0.75;
const LEAST_OCTAVES = 2;
const LEAST_FRAMES = 8;
/** A hole in the response hides the sweep for so long. */
const LONGEST_GAP_OCTAVES = 0.4;
const ROUNDS = 4;

interface Frame {
  readonly atS: number;
  /** Of the strongest frequency. */
  readonly lnHz: number;
  /** Half width of what counts as on the line. */
  readonly near: number;
}

interface Line {
  readonly growthS: number;
  /** Logarithm of the frequency in Hz at file second 0. */
  readonly intercept: number;
}

/**
 * Recognises the clearest exponential sweep in a recording by the straight line that it draws in log frequency over time.
 *
 * Rough, and without an idea of what was played: growth to about a hundredth, frequencies to a semitone.
 *
 * @returns null when nothing in the recording rises that way over two octaves
 * @remarks Source: own derivation; a Hough transform over growth and intercept, refined by least squares.
 */
export function heardSweep(recording: Signal): HeardSweep | null {
  const { frames, stepS } = strongestFrequencies(recording);
  let line = likeliestLine(frames, stepS);
  for (let round = 0; round < ROUNDS && line; round++) line = fitted(runAlong(frames, line, stepS));
  const run = line && runAlong(frames, line, stepS);
  const first = run?.[0];
  const last = run?.at(-1);
  if (!line || !run || !first || !last) return null;
  const { growthS, intercept } = line;
  const octaves = (last.atS - first.atS) / growthS / Math.LN2;
  const coverage = run.length / (1 + Math.round((last.atS - first.atS) / stepS));
  if (octaves < LEAST_OCTAVES || coverage < LEAST_COVERAGE) return null;
  const at = (atS: number): number => Math.exp(intercept + atS / growthS);
  return { growthS, fromHz: at(first.atS), toHz: at(last.atS), fromS: first.atS, toS: last.atS };
}

/** The strongest frequency of each short stretch of the recording; silent ones are left out. */
function strongestFrequencies({ samples, sampleRate }: Signal): { frames: Frame[]; stepS: number } {
  let size = 2;
  while (size < WINDOW_S * sampleRate) size *= 2;
  const step = Math.max(Math.round(STEP_S * sampleRate), Math.ceil(samples.length / MOST_FRAMES));
  const binHz = sampleRate / size;
  const lowest = Math.max(2, Math.round(LOWEST_HZ / binHz));
  const window = hann(size);
  const windowed = new Float64Array(size);
  const frames: Frame[] = [];
  for (let start = 0; start + size <= samples.length; start += step) {
    for (let n = 0; n < size; n++) windowed[n] = window[n]! * samples[start + n]!;
    const spectrum = forwardReal(windowed, size);
    const power = (k: number): number => spectrum[2 * k]! ** 2 + spectrum[2 * k + 1]! ** 2;
    let best = lowest;
    for (let k = lowest + 1; k < size / 2; k++) if (power(k) > power(best)) best = k;
    let weight = 0;
    let moment = 0;
    for (let k = Math.max(1, best - 2); k <= Math.min(size / 2, best + 2); k++) {
      weight += power(k);
      moment += k * power(k);
    }
    if (!(weight > 0)) continue;
    const bin = moment / weight;
    frames.push({
      atS: (start + size / 2) / sampleRate,
      lnHz: Math.log(bin * binHz),
      near: NEAR + NEAR_BINS / bin,
    });
  }
  return { frames, stepS: step / sampleRate };
}

/** Of all lines, the one that the most of its way is heard of. */
function likeliestLine(frames: readonly Frame[], stepS: number): Line | null {
  let best: (Line & { share: number }) | null = null;
  for (let growthS = LEAST_GROWTH_S; growthS < MOST_GROWTH_S; growthS *= GROWTH_STEP) {
    const counts = new Map<number, number>();
    for (const { atS, lnHz } of frames) {
      const slot = Math.floor((lnHz - atS / growthS) / NEAR);
      counts.set(slot, (counts.get(slot) ?? 0) + 1);
    }
    for (const [slot, count] of counts) {
      // So much of the line's way is covered, in units of e.
      const share = ((count + (counts.get(slot + 1) ?? 0)) * stepS) / growthS;
      if (!best || share > best.share) best = { growthS, intercept: (slot + 1) * NEAR, share };
    }
  }
  return best;
}

/** The longest run of frames on a line. */
function runAlong(frames: readonly Frame[], { growthS, intercept }: Line, stepS: number): Frame[] {
  const gapS = Math.max(3 * stepS, LONGEST_GAP_OCTAVES * Math.LN2 * growthS);
  let longest: Frame[] = [];
  let run: Frame[] = [];
  for (const frame of frames) {
    if (Math.abs(frame.lnHz - intercept - frame.atS / growthS) > frame.near) continue;
    const before = run.at(-1);
    if (before && frame.atS - before.atS > gapS) run = [];
    run.push(frame);
    if (run.length > longest.length) longest = run;
  }
  return longest;
}

/** The line through a run, low frequencies counted as little as they are known; null where it does not rise. */
function fitted(run: readonly Frame[]): Line | null {
  if (run.length < LEAST_FRAMES) return null;
  let weight = 0;
  let meanS = 0;
  let meanLn = 0;
  for (const { atS, lnHz, near } of run) {
    const one = 1 / near ** 2;
    weight += one;
    meanS += one * atS;
    meanLn += one * lnHz;
  }
  meanS /= weight;
  meanLn /= weight;
  let together = 0;
  let spread = 0;
  for (const { atS, lnHz, near } of run) {
    together += ((atS - meanS) * (lnHz - meanLn)) / near ** 2;
    spread += (atS - meanS) ** 2 / near ** 2;
  }
  if (!(together > 0)) return null;
  const growthS = spread / together;
  return { growthS, intercept: meanLn - meanS / growthS };
}
