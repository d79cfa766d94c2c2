import { fractionalShift } from "../src/dsp/fractional-shift.js";
import { forwardReal, inverseReal, transformSize } from "../src/dsp/fft.js";
import { synthesiseSweep } from "../src/dsp/sweep-signal.js";
import { excitationFromRecipe } from "../src/impulse/excitation.js";
import type { Recording, SweepRecipe } from "../src/model.js";
import { type Captured, captureRecording } from "../src/pipeline/capture.js";
import type { TimelineEvent } from "../src/sweep/timeline.js";

/** Recordings whose truth is known in closed form, made without the simulator. */

/** Seeded normal noise: the mean of twelve uniform numbers. */
export function whiteNoise(count: number, seed: number): Float64Array {
  let state = seed >>> 0;
  const uniform = (): number => (state = (Math.imul(state, 1664525) + 1013904223) >>> 0) / 2 ** 32;
  return Float64Array.from({ length: count }, () => {
    let sum = -6;
    for (let n = 0; n < 12; n++) sum += uniform();
    return sum;
  });
}

/** Noise of equal power per octave above 10 Hz. */
export function pinkNoise(count: number, seed: number, sampleRate: number): Float64Array {
  const size = transformSize(count);
  const spectrum = forwardReal(whiteNoise(size, seed), size);
  for (let k = 0; k <= size / 2; k++) {
    const hz = (k * sampleRate) / size;
    const gain = hz < 10 ? 0 : 1 / Math.sqrt(hz);
    spectrum[2 * k]! *= gain;
    spectrum[2 * k + 1]! *= gain;
  }
  return inverseReal(spectrum).subarray(0, count);
}

export function rms(samples: ArrayLike<number>, from = 0, to = samples.length): number {
  let sum = 0;
  for (let n = from; n < to; n++) sum += samples[n]! ** 2;
  return Math.sqrt(sum / (to - from));
}

/** Passes a signal through a frequency response, exactly for what rings less than a second. */
export function filtered(
  samples: Float64Array,
  sampleRate: number,
  response: (frequencyHz: number) => { re: number; im: number },
): Float64Array {
  const size = transformSize(samples.length + sampleRate);
  const spectrum = forwardReal(samples, size);
  for (let k = 0; k <= size / 2; k++) {
    const { re, im } = response((k * sampleRate) / size);
    const a = spectrum[2 * k]!;
    const b = spectrum[2 * k + 1]!;
    spectrum[2 * k] = a * re - b * im;
    spectrum[2 * k + 1] = a * im + b * re;
  }
  return inverseReal(spectrum).subarray(0, samples.length + sampleRate / 2);
}

/**
 * A path with a reflection 40 dB weaker, 3 ms late: it moves a level by 0.09 dB at most. Two loudspeakers without a room would
 * be one sound, which is a fault of its own.
 */
export function otherSide(path: readonly Path[]): Path[] {
  return [...path, ...path.map(({ delayS, gain }) => ({ delayS: delayS + 0.003, gain: 0.01 * gain }))];
}

const FIRST_SEED = 77;
let recorded = 0;

export interface Path {
  readonly delayS: number;
  readonly gain: number;
}

/**
 * Records a timeline through delays and gains with a recorder whose clock is off: nothing is resampled, every sound is made
 * anew as that clock hears it. The recorder itself is silent to -140 dBFS.
 */
export function recordPaths(
  recipe: SweepRecipe,
  events: readonly TimelineEvent[],
  paths: { L: readonly Path[]; R: readonly Path[] },
  options: { ppm?: number; leadS?: number } = {},
): Float64Array {
  const ratio = 1 + (options.ppm ?? 0) * 1e-6;
  const lead = Math.round((options.leadS ?? 0.3) * recipe.sampleRate);
  const last = events.at(-1)!;
  // The last bit of a good converter: exact zeros would be a workstation's, not a microphone's. Noise never repeats itself.
  const out = whiteNoise(
    Math.ceil((last.atSample + last.samples + recipe.sampleRate) * ratio) + lead,
    FIRST_SEED + recorded++,
  ).map((value) => 1e-7 * value);
  const sounds = { sweep: synthesiseSweep(recipe, ratio), marker: markerHeard(recipe, ratio) };
  for (const event of events) {
    for (const path of paths[event.channel]) {
      const at = lead + event.atSample * ratio + path.delayS * recipe.sampleRate * ratio;
      const padded = new Float64Array(sounds[event.kind].length + 512);
      padded.set(sounds[event.kind], 256);
      const moved = fractionalShift(padded, at - Math.floor(at));
      const start = Math.floor(at) - 256;
      for (let n = Math.max(0, -start); n < moved.length && start + n < out.length; n++)
        out[start + n]! += path.gain * moved[n]!;
    }
  }
  return out;
}

/** The marker's formula again, on another clock. */
function markerHeard(recipe: SweepRecipe, ratio: number): Float64Array {
  const growthS = 0.1 / Math.log(16);
  return Float64Array.from({ length: Math.floor((0.1 * recipe.sampleRate - 1) * ratio) + 1 }, (_, n) => {
    const t = n / recipe.sampleRate / ratio;
    const edge = Math.min(t, 0.1 - t, 0.01) / 0.01;
    const gain = 10 ** (recipe.levelDbfs / 20) * (0.5 - 0.5 * Math.cos(Math.PI * edge));
    return gain * Math.sin(2 * Math.PI * 500 * growthS * (Math.exp(t / growthS) - 1));
  });
}

export function capture(
  recipe: SweepRecipe,
  events: readonly TimelineEvent[],
  samples: Float64Array,
  recording: Partial<Recording> = {},
): Captured {
  return captureRecording({
    recording: { file: "known.wav", monitor: "mains", position: "mix", take: 1, kind: "sweep", ...recording },
    signal: { samples, sampleRate: recipe.sampleRate },
    loopback: null,
    excitation: excitationFromRecipe(recipe),
    timeline: events,
    marker: recipe,
    sweepFile: "sweep.json",
    otherSweeps: [],
    deviationDb: null,
  });
}
