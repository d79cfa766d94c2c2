import FastFourier from "fft.js";

/** A complex Fourier transform of one length; both ways read interleaved numbers and leave them as they are. */
export interface ComplexTransform {
  /** Not scaled. */
  transform(out: Float64Array, signal: Float64Array): void;
  /** Divided by the length. */
  inverseTransform(out: Float64Array, spectrum: Float64Array): void;
}

/** Odd factors that a length may have once, beside its power of two. */
const ODD_FACTORS = [3, 5] as const;
/** Below this, the next power of two is as fast. */
const SMALLEST_POWER_BESIDE = 2 ** 13;

const known = new Map<number, ComplexTransform>();

/** The transform of a length that `isTransformLength` allows, kept for the next time. */
export function complexTransform(length: number): ComplexTransform {
  const kept = known.get(length);
  if (kept) return kept;
  if (length >= SMALLEST_POWER_BESIDE) compileTransform();
  const factor = oddFactor(length);
  const made = factor === 1 ? new FastFourier(length) : splitTransform(factor, length / factor);
  known.set(length, made);
  return made;
}

let isCompiled = false;

/**
 * Transforms a little silence again and again: the transform is compiled on another thread meanwhile, and while the large one makes its
 * tables. The first large one runs ten times as long uncompiled.
 */
function compileTransform(): void {
  if (isCompiled) return;
  isCompiled = true;
  const size = 256;
  const small = new FastFourier(size);
  const [out, silence] = [new Float64Array(2 * size), new Float64Array(2 * size)];
  for (let n = 0; n < 20; n++) small.transform(out, silence);
}

/** Powers of two from 2 up; three and five times large ones, since a power of two may be nearly twice what is needed. */
export function isTransformLength(length: number): boolean {
  if (!Number.isInteger(length) || length < 2) return false;
  const factor = oddFactor(length);
  const power = length / factor;
  return isPowerOfTwo(power) && (factor === 1 || power >= SMALLEST_POWER_BESIDE);
}

function oddFactor(length: number): 1 | 3 | 5 {
  return ODD_FACTORS.find((factor) => length % factor === 0) ?? 1;
}

const isPowerOfTwo = (number: number): boolean => Number.isInteger(number) && (number & (number - 1)) === 0;

/** Every third or fifth number is transformed by itself, and what came of it is joined: the Cooley-Tukey step of that factor. */
function splitTransform(factor: 3 | 5, power: number): ComplexTransform {
  const part = complexTransform(power);
  const length = factor * power;
  const turns = new Float64Array(2 * power);
  fillTurns(turns, length);
  const picked = new Float64Array(2 * power);
  const parts = Array.from({ length: factor }, () => new Float64Array(2 * power));
  const join = factor === 3 ? joinThree : joinFive;
  return {
    transform: (out, signal) => {
      parts.forEach((one, first) => {
        pick(picked, signal, first, factor);
        part.transform(one, picked);
      });
      join(out, parts, turns);
    },
    // Real and imaginary parts that change places make of a transform its inverse.
    inverseTransform: (out, spectrum) => {
      parts.forEach((one, first) => {
        pickSwapped(picked, spectrum, first, factor);
        part.transform(one, picked);
      });
      join(out, parts, turns);
      swapScaled(out, 1 / length);
    },
  };
}

// Loops by themselves are compiled the sooner.

/** exp(-2 pi i k / length), interleaved. */
function fillTurns(turns: Float64Array, length: number): void {
  for (let k = 0; k < turns.length / 2; k++) {
    turns[2 * k] = Math.cos((2 * Math.PI * k) / length);
    turns[2 * k + 1] = -Math.sin((2 * Math.PI * k) / length);
  }
}

/** Every so many complex numbers, from one on. */
function pick(picked: Float64Array, signal: Float64Array, first: number, factor: number): void {
  for (let n = 0, at = 2 * first; n < picked.length; n += 2, at += 2 * factor) {
    picked[n] = signal[at]!;
    picked[n + 1] = signal[at + 1]!;
  }
}

/** The same with real and imaginary parts that change places. */
function pickSwapped(picked: Float64Array, signal: Float64Array, first: number, factor: number): void {
  for (let n = 0, at = 2 * first; n < picked.length; n += 2, at += 2 * factor) {
    picked[n] = signal[at + 1]!;
    picked[n + 1] = signal[at]!;
  }
}

function swapScaled(values: Float64Array, scale: number): void {
  for (let n = 0; n < values.length; n += 2) {
    const re = values[n]!;
    values[n] = scale * values[n + 1]!;
    values[n + 1] = scale * re;
  }
}

const SIN_60 = Math.sqrt(3) / 2;

function joinThree(out: Float64Array, [a, b, c]: readonly Float64Array[], turns: Float64Array): void {
  const third = a!.length;
  for (let k = 0; k < third; k += 2) {
    const wr = turns[k]!;
    const wi = turns[k + 1]!;
    const vr = wr * wr - wi * wi;
    const vi = 2 * wr * wi;
    const ar = a![k]!;
    const ai = a![k + 1]!;
    const br = b![k]! * wr - b![k + 1]! * wi;
    const bi = b![k]! * wi + b![k + 1]! * wr;
    const cr = c![k]! * vr - c![k + 1]! * vi;
    const ci = c![k]! * vi + c![k + 1]! * vr;
    const sumR = br + cr;
    const sumI = bi + ci;
    const apartR = SIN_60 * (br - cr);
    const apartI = SIN_60 * (bi - ci);
    const middleR = ar - 0.5 * sumR;
    const middleI = ai - 0.5 * sumI;
    out[k] = ar + sumR;
    out[k + 1] = ai + sumI;
    out[third + k] = middleR + apartI;
    out[third + k + 1] = middleI - apartR;
    out[2 * third + k] = middleR - apartI;
    out[2 * third + k + 1] = middleI + apartR;
  }
}

const COS_72 = Math.cos((2 * Math.PI) / 5);
const SIN_72 = Math.sin((2 * Math.PI) / 5);
const COS_144 = Math.cos((4 * Math.PI) / 5);
const SIN_144 = Math.sin((4 * Math.PI) / 5);

function joinFive(out: Float64Array, [a, b, c, d, e]: readonly Float64Array[], turns: Float64Array): void {
  const fifth = a!.length;
  for (let k = 0; k < fifth; k += 2) {
    const wr = turns[k]!;
    const wi = turns[k + 1]!;
    const vr = wr * wr - wi * wi;
    const vi = 2 * wr * wi;
    const ur = vr * wr - vi * wi;
    const ui = vr * wi + vi * wr;
    const tr = vr * vr - vi * vi;
    const ti = 2 * vr * vi;
    const ar = a![k]!;
    const ai = a![k + 1]!;
    const br = b![k]! * wr - b![k + 1]! * wi;
    const bi = b![k]! * wi + b![k + 1]! * wr;
    const cr = c![k]! * vr - c![k + 1]! * vi;
    const ci = c![k]! * vi + c![k + 1]! * vr;
    const dr = d![k]! * ur - d![k + 1]! * ui;
    const di = d![k]! * ui + d![k + 1]! * ur;
    const er = e![k]! * tr - e![k + 1]! * ti;
    const ei = e![k]! * ti + e![k + 1]! * tr;
    const outerR = br + er;
    const outerI = bi + ei;
    const innerR = cr + dr;
    const innerI = ci + di;
    const outerApartR = br - er;
    const outerApartI = bi - ei;
    const innerApartR = cr - dr;
    const innerApartI = ci - di;
    out[k] = ar + outerR + innerR;
    out[k + 1] = ai + outerI + innerI;
    const oneR = ar + COS_72 * outerR + COS_144 * innerR;
    const oneI = ai + COS_72 * outerI + COS_144 * innerI;
    const oneApartR = SIN_72 * outerApartR + SIN_144 * innerApartR;
    const oneApartI = SIN_72 * outerApartI + SIN_144 * innerApartI;
    out[fifth + k] = oneR + oneApartI;
    out[fifth + k + 1] = oneI - oneApartR;
    out[4 * fifth + k] = oneR - oneApartI;
    out[4 * fifth + k + 1] = oneI + oneApartR;
    const twoR = ar + COS_144 * outerR + COS_72 * innerR;
    const twoI = ai + COS_144 * outerI + COS_72 * innerI;
    const twoApartR = SIN_144 * outerApartR - SIN_72 * innerApartR;
    const twoApartI = SIN_144 * outerApartI - SIN_72 * innerApartI;
    out[2 * fifth + k] = twoR + twoApartI;
    out[2 * fifth + k + 1] = twoI - twoApartR;
    out[3 * fifth + k] = twoR - twoApartI;
    out[3 * fifth + k + 1] = twoI + twoApartR;
  }
}
