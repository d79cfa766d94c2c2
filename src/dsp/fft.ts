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
  /** cos and sin of 2 pi k / size for the first quarter circle, interleaved. */
  readonly turns: Float64Array;
}

const plans = new Map<number, Plan>();

/** Everything that transforms of one length of real signal share. */
function planOf(size: number): Plan {
  const known = plans.get(size);
  if (known) return known;
  const turns = new Float64Array(size / 2 + 2);
  fillTurns(turns, size);
  const plan = {
    transform: complexTransform(size / 2),
    packed: new Float64Array(size),
    turns,
  };
  plans.set(size, plan);
  return plan;
}

/** cos and sin of the first quarter circle; its second half is its first, mirrored. */
function fillTurns(turns: Float64Array, size: number): void {
  const quarter = turns.length - 2;
  for (let k = 0; k <= size / 8; k++) {
    const c = Math.cos((2 * Math.PI * k) / size);
    const s = Math.sin((2 * Math.PI * k) / size);
    turns[2 * k] = c;
    turns[2 * k + 1] = s;
    turns[quarter - 2 * k] = s;
    turns[quarter - 2 * k + 1] = c;
  }
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
  const { transform, packed, turns } = planOf(size);
  packed.set(samples);
  packed.fill(0, samples.length);
  const spectrum = new Float64Array(size + 2);
  transform.transform(spectrum, packed);
  unmix(spectrum, turns);
  return spectrum;
}

/** Takes the spectra of even and odd samples out of that of their pairs and joins them, in place. A loop by itself: it is compiled the sooner. */
function unmix(spectrum: Float64Array, turns: Float64Array): void {
  const half = spectrum.length / 2 - 1;
  const [even, odd] = [spectrum[0]!, spectrum[1]!];
  spectrum[0] = even + odd;
  spectrum[1] = 0;
  spectrum[2 * half] = even - odd;
  for (let k = 1; k <= half >> 1; k++) {
    const mirror = half - k;
    const ar = spectrum[2 * k]!;
    const ai = spectrum[2 * k + 1]!;
    const br = spectrum[2 * mirror]!;
    const bi = spectrum[2 * mirror + 1]!;
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
  const plan = planOf(size);
  plan.packed.set(spectrum.subarray(0, size));
  plan.packed[1] = spectrum[size]!;
  return unpacked(plan);
}

/**
 * Transforms the product of two half spectra back: the circular convolution of their signals.
 *
 * As `inverseReal` of the product, without memory of its own.
 *
 * @param one - shape `[size + 2]`
 * @param other - likewise
 * @param scale - of what comes back
 * @returns shape `[size]`
 * @throws {RangeError} if the lengths differ or are not those of half spectra
 */
export function inverseProduct(one: Float64Array, other: Float64Array, scale = 1): Float64Array {
  const size = one.length - 2;
  checkSize(size, 0);
  if (other.length !== one.length) throw new RangeError(`spectra of ${one.length} and ${other.length} numbers`);
  const plan = planOf(size);
  multiply(plan.packed, one, other, scale);
  return unpacked(plan);
}

function multiply(packed: Float64Array, one: Float64Array, other: Float64Array, scale: number): void {
  const size = packed.length;
  // The ends of a real signal's spectrum are real.
  packed[0] = scale * one[0]! * other[0]!;
  packed[1] = scale * one[size]! * other[size]!;
  for (let k = 2; k < size; k += 2) {
    const a = one[k]!;
    const b = one[k + 1]!;
    const c = other[k]!;
    const d = other[k + 1]!;
    packed[k] = scale * (a * c - b * d);
    packed[k + 1] = scale * (a * d + b * c);
  }
}

/** What the plan's memory holds, a half spectrum with its last bin in place of the first one's imaginary part, back in time. */
function unpacked({ transform, packed, turns }: Plan): Float64Array {
  mix(packed, turns);
  const samples = new Float64Array(packed.length);
  transform.inverseTransform(samples, packed);
  return samples;
}

/** Makes of the spectrum of a real signal that of half the length whose pairs are its samples: `unmix` the other way round. */
function mix(packed: Float64Array, turns: Float64Array): void {
  const half = packed.length / 2;
  const [first, last] = [packed[0]!, packed[1]!];
  packed[0] = 0.5 * (first + last);
  packed[1] = 0.5 * (first - last);
  for (let k = 1; k <= half >> 1; k++) {
    const mirror = half - k;
    const ar = packed[2 * k]!;
    const ai = packed[2 * k + 1]!;
    const br = packed[2 * mirror]!;
    const bi = packed[2 * mirror + 1]!;
    const evenR = 0.5 * (ar + br);
    const evenI = 0.5 * (ai - bi);
    const apartR = 0.5 * (ar - br);
    const apartI = 0.5 * (ai + bi);
    const c = turns[2 * k]!;
    const s = turns[2 * k + 1]!;
    const oddR = apartR * c - apartI * s;
    const oddI = apartR * s + apartI * c;
    packed[2 * k] = evenR - oddI;
    packed[2 * k + 1] = evenI + oddR;
    packed[2 * mirror] = evenR + oddI;
    packed[2 * mirror + 1] = oddR - evenI;
  }
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
