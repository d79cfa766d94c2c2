import { meanPower } from "../dsp/block-power.js";
import type { ImpulseResponse, NoiseSpectrum, Signal } from "../model.js";
import type { Excitation } from "./excitation.js";
import { bandGain } from "./inverse-filter.js";

/** Power density of a stretch of silence. */
export interface NoiseDensity {
  readonly sampleRate: number;
  /** Expected squared magnitude of the spectrum per sample looked at, by bin of `segment` samples. */
  readonly density: Float64Array;
  readonly segment: number;
  readonly seconds: number;
}

const LONGEST_SEGMENT_S = 0.7;
const LEAST_SILENCE_S = 0.2;
const LONGEST_ZEROS_S = 0.01;

/**
 * Measures the noise of a stretch in which nothing was played.
 *
 * @returns null when the stretch is shorter than 0.2 s, or holds 10 ms of exact zeros: a workstation put those there, no
 *   microphone
 * @remarks Source: see `meanPower`.
 */
export function noiseDensity(recording: Signal, fromSample: number, toSample: number): NoiseDensity | null {
  const from = Math.max(0, Math.ceil(fromSample));
  const length = Math.min(recording.samples.length, Math.floor(toSample)) - from;
  if (length < LEAST_SILENCE_S * recording.sampleRate || holdsZeros(recording, from, length)) return null;
  let segment = 2;
  while (2 * segment <= Math.min(length / 1.5, LONGEST_SEGMENT_S * recording.sampleRate)) segment *= 2;
  // Of the power, half is in each half of the spectrum.
  const density = meanPower(recording.samples, from, from + length, segment).map((power) => (power * segment) / 2);
  return { sampleRate: recording.sampleRate, density, segment, seconds: length / recording.sampleRate };
}

function holdsZeros(recording: Signal, from: number, length: number): boolean {
  const longest = LONGEST_ZEROS_S * recording.sampleRate;
  let run = 0;
  for (let n = from; n < from + length; n++) {
    run = recording.samples[n] === 0 ? run + 1 : 0;
    if (run > longest) return true;
  }
  return false;
}

/** Mean square of the noise between two frequencies, full scale 1. */
export function noisePower(noise: NoiseDensity, fromHz: number, toHz: number): number {
  const { density, segment, sampleRate } = noise;
  const binHz = sampleRate / segment;
  const first = Math.max(1, Math.floor(fromHz / binHz));
  const last = Math.min(density.length - 1, Math.ceil(toHz / binHz));
  let sum = 0;
  for (let k = first; k <= last; k++) {
    // Each bin stands for the band around it; the share of it inside the range counts.
    const share = Math.min(toHz / binHz, k + 0.5) - Math.max(fromHz / binHz, k - 0.5);
    sum += density[k]! * Math.max(0, share);
  }
  return (2 * sum) / segment;
}

const STEPS_PER_DECADE = 40;
const HALF_WIDTH = 10 ** (1 / STEPS_PER_DECADE);

/**
 * Carries the recording's noise through the deconvolution: what it adds to an impulse response.
 *
 * @param size - transform size at which the excitation's spectrum is at hand, for this clock ratio
 */
export function noiseInResponse(
  noise: NoiseDensity,
  excitation: Excitation,
  size: number,
  clockRatio: number,
): NoiseSpectrum {
  const { sampleRate } = noise;
  const playedPower = runningPower(excitation.spectrum(size, clockRatio));
  const noiseRunning = runningSum(noise.density);
  const { gainAt } = bandGain(excitation, size);
  const [startHz, endHz] = excitation.sweptHz;
  const first = Math.ceil(STEPS_PER_DECADE * Math.log10(startHz / HALF_WIDTH));
  const last = Math.floor(STEPS_PER_DECADE * Math.log10(endHz * HALF_WIDTH));
  const frequencyHz = Float64Array.from({ length: last - first + 1 }, (_, n) => 10 ** ((first + n) / STEPS_PER_DECADE));
  const powerPerSecond = frequencyHz.map((centreHz) => {
    const range = [centreHz / HALF_WIDTH, centreHz * HALF_WIDTH] as const;
    const recorded = meanBetween(noiseRunning, range, sampleRate / noise.segment);
    const played = meanBetween(playedPower, range, sampleRate / size);
    const gain = gainAt(Math.round((centreHz * size) / sampleRate));
    return played > 0 ? (sampleRate * recorded * gain * gain) / played : 0;
  });
  return { frequencyHz, powerPerSecond };
}

const runningPowers = new WeakMap<Float64Array, Float64Array>();

/** Kept for the next sweep that is held against the same spectrum. */
function runningPower(spectrum: Float64Array): Float64Array {
  const known = runningPowers.get(spectrum);
  if (known) return known;
  const running = new Float64Array(spectrum.length / 2 + 1);
  addPowers(running, spectrum);
  runningPowers.set(spectrum, running);
  return running;
}

function addPowers(running: Float64Array, spectrum: Float64Array): void {
  let sum = 0;
  for (let k = 0; k + 1 < running.length; k++) {
    const re = spectrum[2 * k]!;
    const im = spectrum[2 * k + 1]!;
    sum += re * re + im * im;
    running[k + 1] = sum;
  }
}

function runningSum(values: Float64Array): Float64Array {
  const running = new Float64Array(values.length + 1);
  for (let k = 0; k < values.length; k++) running[k + 1] = running[k]! + values[k]!;
  return running;
}

/** Mean over the bins from one frequency to another, at least the nearest one. */
function meanBetween(running: Float64Array, range: readonly [number, number], binHz: number): number {
  const from = Math.min(running.length - 2, Math.max(1, Math.round(range[0] / binHz)));
  const to = Math.min(running.length - 1, Math.max(from + 1, Math.round(range[1] / binHz) + 1));
  return (running[to]! - running[from]!) / (to - from);
}

/** The same response in a noise that is louder by so much at each frequency. */
export function withNoise(impulse: ImpulseResponse, louderDb: (frequencyHz: number) => number): ImpulseResponse {
  const { noise } = impulse;
  if (!noise) return impulse;
  const powerPerSecond = noise.powerPerSecond.map((power, k) => power * 10 ** (louderDb(noise.frequencyHz[k]!) / 10));
  return { ...impulse, noise: { ...noise, powerPerSecond } };
}
