import type { Pole } from "./pole.js";

/** A stretch of time and a range of its spectrum. Spectra are arrays of all real parts, then all imaginary parts. */
export interface Stretch {
  readonly sampleRate: number;
  /** First sample, and how many. */
  readonly from: number;
  readonly count: number;
  /** Bins of the transform of the stretch, as angles per sample. */
  readonly angles: Float64Array;
}

export function stretchOf(
  sampleRate: number,
  startS: number,
  lengthS: number,
  [fromHz, toHz]: readonly [number, number],
): Stretch {
  const count = Math.floor(lengthS * sampleRate);
  const binHz = sampleRate / count;
  const first = Math.ceil(fromHz / binHz);
  const bins = Math.max(0, Math.floor(toHz / binHz) - first + 1);
  const angles = Float64Array.from({ length: bins }, (_, k) => (2 * Math.PI * (first + k)) / count);
  return { sampleRate, from: Math.round(startS * sampleRate), count, angles };
}

/** Spectrum of a stretch of samples. */
export function spectrumOf(samples: Float64Array, { from, count, angles }: Stretch): Float64Array {
  const spectrum = new Float64Array(2 * angles.length);
  for (const [k, angle] of angles.entries()) {
    const stepR = Math.cos(angle);
    const stepI = -Math.sin(angle);
    let turnR = 1;
    let turnI = 0;
    for (let n = 0; n < count; n++) {
      const value = samples[from + n]!;
      spectrum[k]! += value * turnR;
      spectrum[angles.length + k]! += value * turnI;
      const before = turnR;
      turnR = before * stepR - turnI * stepI;
      turnI = before * stepI + turnI * stepR;
    }
  }
  return spectrum;
}

/**
 * Spectra of a damped cosine and a damped sine that begin with the stretch, in closed form.
 *
 * At the bins of the stretch's own transform they hold whatever is left at its end: no window is needed.
 */
export function dampedSpectra(pole: Pole, { sampleRate, count, angles }: Stretch): [Float64Array, Float64Array] {
  const bins = angles.length;
  const cosine = new Float64Array(2 * bins);
  const sine = new Float64Array(2 * bins);
  const turn = (2 * Math.PI * pole.frequencyHz) / sampleRate;
  const fall = pole.dampingPerS / sampleRate;
  for (const [k, angle] of angles.entries()) {
    const [ar, ai] = geometricSum(fall, turn - angle, count);
    const [br, bi] = geometricSum(fall, -turn - angle, count);
    // cos x = (exp(ix) + exp(-ix)) / 2, sin x = (exp(ix) - exp(-ix)) / 2i.
    cosine[k] = 0.5 * (ar + br);
    cosine[bins + k] = 0.5 * (ai + bi);
    sine[k] = 0.5 * (ai - bi);
    sine[bins + k] = -0.5 * (ar - br);
  }
  return [cosine, sine];
}

/** Sum of exp((-fall + i turn) n) over n from 0 to count - 1: real and imaginary part. */
function geometricSum(fall: number, turn: number, count: number): [number, number] {
  const end = Math.exp(-fall * count);
  const aboveR = 1 - end * Math.cos(turn * count);
  const aboveI = -end * Math.sin(turn * count);
  const step = Math.exp(-fall);
  const belowR = 1 - step * Math.cos(turn);
  const belowI = -step * Math.sin(turn);
  const scale = 1 / (belowR * belowR + belowI * belowI);
  return [(aboveR * belowR + aboveI * belowI) * scale, (aboveI * belowR - aboveR * belowI) * scale];
}
