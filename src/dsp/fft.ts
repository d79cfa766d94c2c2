import { type ComplexTransform, complexTransform, isTransformLength } from "./complex-transform.js";

/**
 * Fourier transforms of real signals: real signals in, half spectra out.
 *
 * A half spectrum of a real signal of length `size` holds bins 0..size/2 as interleaved real and imaginary
 * parts, so its length is `size + 2`.
 */

interface Plan {
  readonly transform: ComplexTransform;
  /** Working memory of one half-length complex signal: the transform is synchronous, so one is enough. */
  readonly packed: Float64Array;
  readonly mixed: Float64Array;
  /** cos and sin of 2 pi k / size for the first quarter circle, interleaved. */
  readonly turns: Float64Array;
}

const plans = new Map<number, Plan>();

/** Everything that transforms of one length of real signal share. */
function planOf(size: number): Plan {
  const known = plans.get(size);
  if (known) return known;
  const turns = new Float64Array(size / 2 + 2);
  for (let k = 0; k <= size / 4; k++) {
    turns[2 * k] = Math.cos((2 * Math.PI * k) / size);
    turns[2 * k + 1] = Math.sin((2 * Math.PI * k) / size);
  }
  const plan = {
    transform: complexTransform(size / 2),
    packed: new Float64Array(size),
    mixed: new Float64Array(size),
    turns,
  };
  plans.set(size, plan);
  return plan;
}

/** Smallest power of two that is at least `length` and at least 2. */
export function transformSize(length: number): number {
  let size = 2;
  while (size < length) size *= 2;
  return size;
}

/**
 * Smallest size of a transform that holds `length`: a power of two, or 3 or 5 times a large one.
 *
 * For convolving and dividing, where only what fits counts. A spectrum that is read bin by bin keeps to powers of two, so
 * that bins do not grow wider.
 */
export function fittingSize(length: number): number {
  const size = transformSize(length);
  return [0.625 * size, 0.75 * size].find((one) => one >= length && isTransformLength(one / 2)) ?? size;
}

/**
 * Transforms a real signal to its half spectrum, zero-padded at the end.
 *
 * @param samples - shape `[n]`, n at most `size`
 * @param size - as `transformSize` or `fittingSize` give, at least 4
 * @returns shape `[size + 2]`, interleaved; not scaled: bin 0 is the sum of the samples
 * @throws {RangeError} if `size` is no such length, or shorter than the signal
 */
export function forwardReal(samples: ArrayLike<number>, size: number): Float64Array {
  checkSize(size, samples.length);
  // A real transform through a complex one of half the length: half the time and half the memory.
  const half = size / 2;
  const { transform, packed, mixed, turns } = planOf(size);
  packed.set(samples);
  packed.fill(0, samples.length);
  transform.transform(mixed, packed);
  const spectrum = new Float64Array(size + 2);
  spectrum[0] = mixed[0]! + mixed[1]!;
  spectrum[size] = mixed[0]! - mixed[1]!;
  for (let k = 1; k <= half >> 1; k++) {
    const mirror = half - k;
    const ar = mixed[2 * k]!;
    const ai = mixed[2 * k + 1]!;
    const br = mixed[2 * mirror]!;
    const bi = mixed[2 * mirror + 1]!;
    const evenR = 0.5 * (ar + br);
    const evenI = 0.5 * (ai - bi);
    const oddR = 0.5 * (ai + bi);
    const oddI = 0.5 * (br - ar);
    const c = turns[2 * k]!;
    const s = turns[2 * k + 1]!;
    const turnedR = oddR * c + oddI * s;
    const turnedI = oddI * c - oddR * s;
    spectrum[2 * k] = evenR + turnedR;
    spectrum[2 * k + 1] = evenI + turnedI;
    spectrum[2 * mirror] = evenR - turnedR;
    spectrum[2 * mirror + 1] = turnedI - evenI;
  }
  return spectrum;
}

/**
 * Transforms a half spectrum back to its real signal.
 *
 * @param spectrum - shape `[size + 2]`, interleaved; the imaginary parts of the first and last bin are ignored
 * @returns shape `[size]`; `inverseReal(forwardReal(x, n))` is `x`
 * @throws {RangeError} if the length is not that of a half spectrum
 */
export function inverseReal(spectrum: Float64Array): Float64Array {
  const size = spectrum.length - 2;
  checkSize(size, 0);
  const half = size / 2;
  const plan = planOf(size);
  packPair(plan, 0, spectrum[0]!, 0, spectrum[size]!, 0);
  for (let k = 1; k <= half / 2; k++) {
    const mirror = half - k;
    const ar = spectrum[2 * k]!;
    const ai = spectrum[2 * k + 1]!;
    packPair(plan, k, ar, ai, spectrum[2 * mirror]!, spectrum[2 * mirror + 1]!);
  }
  return unpacked(plan);
}

/**
 * Transforms the product of two half spectra back: the circular convolution of their signals.
 *
 * As `inverseReal` of the product, in a pass less over the memory.
 *
 * @param one - shape `[size + 2]`
 * @param other - likewise
 * @returns shape `[size]`
 * @throws {RangeError} if the lengths differ or are not those of half spectra
 */
export function inverseProduct(one: Float64Array, other: Float64Array): Float64Array {
  const size = one.length - 2;
  checkSize(size, 0);
  if (other.length !== one.length) throw new RangeError(`spectra of ${one.length} and ${other.length} numbers`);
  const half = size / 2;
  const plan = planOf(size);
  packPair(plan, 0, one[0]! * other[0]!, 0, one[size]! * other[size]!, 0);
  for (let k = 1; k <= half / 2; k++) {
    const a = one[2 * k]!;
    const b = one[2 * k + 1]!;
    const c = other[2 * k]!;
    const d = other[2 * k + 1]!;
    const mirror = half - k;
    const e = one[2 * mirror]!;
    const f = one[2 * mirror + 1]!;
    const g = other[2 * mirror]!;
    const h = other[2 * mirror + 1]!;
    packPair(plan, k, a * c - b * d, a * d + b * c, e * g - f * h, e * h + f * g);
  }
  return unpacked(plan);
}

/** Packs a bin `a` and the one that mirrors it, `b`, of a real signal's spectrum into that of half the length. */
function packPair({ packed, turns }: Plan, k: number, ar: number, ai: number, br: number, bi: number): void {
  const evenR = 0.5 * (ar + br);
  const evenI = 0.5 * (ai - bi);
  const turnedR = 0.5 * (ar - br);
  const turnedI = 0.5 * (ai + bi);
  const c = turns[2 * k]!;
  const s = turns[2 * k + 1]!;
  const oddR = turnedR * c - turnedI * s;
  const oddI = turnedR * s + turnedI * c;
  packed[2 * k] = evenR - oddI;
  packed[2 * k + 1] = evenI + oddR;
  if (k === 0) return;
  const mirror = packed.length / 2 - k;
  packed[2 * mirror] = evenR + oddI;
  packed[2 * mirror + 1] = oddR - evenI;
}

function unpacked({ transform, packed }: Plan): Float64Array {
  const samples = new Float64Array(packed.length);
  transform.inverseTransform(samples, packed);
  return samples;
}

/**
 * Inverse transform of a full complex spectrum.
 *
 * @param spectrum - shape `[2 * size]`, interleaved, `size` a power of two from 2 up, or 3 or 5 times a large one
 * @returns shape `[2 * size]`, interleaved, divided by `size`
 * @throws {RangeError} if the length is not twice such a size
 */
export function inverseComplex(spectrum: Float64Array): Float64Array {
  const size = spectrum.length / 2;
  checkSize(size * 2, 0);
  const signal = new Float64Array(spectrum.length);
  complexTransform(size).inverseTransform(signal, spectrum);
  return signal;
}

function checkSize(size: number, length: number): void {
  if (!isTransformLength(size / 2) || length > size) {
    throw new RangeError(`no transform has size ${size} for ${length} samples`);
  }
}
