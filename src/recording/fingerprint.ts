import { forwardReal, inverseReal } from "../dsp/fft.js";

/** What tells one recording from every other, whatever gain it was given afterwards. */
export interface Fingerprint {
  readonly sampleRate: number;
  /** Noise of a silence, its spectrum made flat, energy 1; null where there is none. */
  readonly noise: Float32Array | null;
  /** Root mean square of that noise before. */
  readonly rms: number;
  /** Of all samples; only where there is no noise. */
  readonly exact: string | null;
}

/** So much of the silence is kept. */
export const FINGERPRINT_SAMPLES = 4096;
const COUNT = FINGERPRINT_SAMPLES;
/** Rounding to another depth changes what lies above. */
const BAND_HZ = [50, 5000] as const;
/** The sweep by which the silence is placed is found to within this many samples. */
const MOST_SHIFT = 16;
/**
 * Noise of two recordings agrees by chance to 0.03 (one standard deviation over 420 bins, about 0.1 at the best of all shifts);
 * a hum in both adds a bin each.
 */
const SAME = 0.5;

/**
 * Takes the fingerprint of a recording.
 *
 * The noise of a room never repeats itself: two takes of the same sweep may be alike to a thousandth, their silences are
 * strangers. A spectrum made flat keeps hum and whistles, which do repeat, to a bin each.
 *
 * @param silenceEnd - sample at which the silence ends; null where there is none
 */
export function fingerprint(
  samples: Float32Array | Float64Array,
  sampleRate: number,
  silenceEnd: number | null,
): Fingerprint {
  const end = silenceEnd === null ? -1 : Math.floor(silenceEnd);
  if (end < COUNT) return { sampleRate, noise: null, rms: 0, exact: hashOf(samples) };
  const silence = Float64Array.from(samples.subarray(end - COUNT, end), (value, n) => value * windowAt(n));
  const spectrum = forwardReal(silence, COUNT);
  let power = 0;
  let kept = 0;
  for (let k = 0; k <= COUNT / 2; k++) {
    const hz = (k * sampleRate) / COUNT;
    const size = Math.hypot(spectrum[2 * k]!, spectrum[2 * k + 1]!);
    const inside = hz >= BAND_HZ[0] && hz <= BAND_HZ[1] && size > 0;
    if (inside) {
      power += size * size;
      kept++;
    }
    spectrum[2 * k] = inside ? spectrum[2 * k]! / size : 0;
    spectrum[2 * k + 1] = inside ? spectrum[2 * k + 1]! / size : 0;
  }
  if (kept === 0) return { sampleRate, noise: null, rms: 0, exact: hashOf(samples) };
  const flat = inverseReal(spectrum);
  // Parseval: each bin of magnitude 1 carries 2 / COUNT of the energy.
  const scale = Math.sqrt(COUNT / (2 * kept));
  return {
    sampleRate,
    noise: Float32Array.from(flat, (value) => value * scale),
    rms: Math.sqrt(2 * power) / COUNT,
    exact: null,
  };
}

/**
 * Whether two recordings are one and the same, but for a gain.
 *
 * @returns null if they are not; else the second's gain over the first, dB, and its sign; 0 for the same samples
 */
export function sameRecording(a: Fingerprint, b: Fingerprint): { gainDb: number; inverted: boolean } | null {
  if (a.sampleRate !== b.sampleRate) return null;
  if (a.exact !== null || b.exact !== null) return a.exact === b.exact ? { gainDb: 0, inverted: false } : null;
  const likeness = strongestLikeness(a.noise!, b.noise!);
  if (Math.abs(likeness) < SAME) return null;
  return { gainDb: 20 * Math.log10(b.rms / a.rms), inverted: likeness < 0 };
}

/**
 * Four-term Blackman-Harris: a hum thousands of times as strong as the noise must not leak into all bins.
 *
 * @remarks Source: F. J. Harris, Proc. IEEE 66 (1978), minimum four-term window, side lobes at -92 dB (from memory).
 */
function windowAt(n: number): number {
  const angle = (2 * Math.PI * (n + 0.5)) / COUNT;
  return 0.35875 - 0.48829 * Math.cos(angle) + 0.14128 * Math.cos(2 * angle) - 0.01168 * Math.cos(3 * angle);
}

/** The strongest correlation over small shifts; both wrap around, as their transforms did. */
function strongestLikeness(a: Float32Array, b: Float32Array): number {
  let strongest = 0;
  for (let shift = -MOST_SHIFT; shift <= MOST_SHIFT; shift++) {
    let sum = 0;
    for (let n = 0; n < COUNT; n++) sum += a[n]! * b[(n + shift) & (COUNT - 1)]!;
    if (Math.abs(sum) > Math.abs(strongest)) strongest = sum;
  }
  return strongest;
}

/** Two running hashes of all samples as 32-bit floats, and their count: enough that no two recordings share it by chance. */
function hashOf(samples: Float32Array | Float64Array): string {
  const single = samples instanceof Float32Array ? samples : Float32Array.from(samples);
  const bits = new Uint32Array(single.buffer, single.byteOffset, single.length);
  let first = 0x811c9dc5;
  let second = 0x9e3779b9;
  for (const word of bits) {
    first = Math.imul(first ^ word, 0x01000193);
    second = Math.imul((second << 5) ^ (second >>> 27) ^ word, 0x85ebca6b);
  }
  return `${samples.length} ${first >>> 0} ${second >>> 0}`;
}
