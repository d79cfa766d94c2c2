import { type BandFilter, filterFrequency } from "./band-filter.js";
import { inverseComplex } from "./fft.js";

/** The part of a spectrum that a band filter lets through. */
export interface BandBins {
  readonly first: number;
  /** The filter's squared magnitude by bin from `first` on. */
  readonly power: Float64Array;
}

/** A band of a signal as analytic signal, on as few time steps as the band needs. */
export interface BandSignal {
  /** Interleaved real and imaginary parts, shape `[2 * n]`; the real part is the filtered signal. Circular in time. */
  readonly values: Float64Array;
  /** Samples of the original signal per step, a power of two. */
  readonly stepSamples: number;
  readonly bins: BandBins;
}

/** Prototype frequencies between which the filter, 60 to 70 dB down, is taken to nothing. */
const FADE_FROM = 10 ** (60 / 60);
const FADE_TO = 10 ** (70 / 60);
/** The last share of the range below half the sample rate is faded too: a filter cut off there would ring. */
const FADE_BELOW_NYQUIST = 0.067;
/** Steps per second: enough for the envelope's energy; enough to follow the cycles, as long as that is cheap. */
const STEPS_PER_BANDWIDTH = 4;
const STEPS_PER_CYCLE = 8;
const LEAST_STEP_RATE = 3000;
const CHEAP_STEP_RATE = 12_000;

/**
 * Filters one band out of a spectrum with the time-reversed class 1 filter and returns it in time.
 *
 * Only the band's own bins are touched. They are folded onto a short circle, which leaves each remaining instant exact:
 * it thins out the time axis and changes no value. The reversed filter answers before its input: a value at time t depends on
 * what the signal does from t on (to the filter's 60 dB), so an exponential decay that starts at t = 0 comes out as
 * itself, whatever the filter's own ringing.
 *
 * @param spectrum - half spectrum, shape `[size + 2]`; should be zero-padded by the filter's ringing
 * @param sampleRate - Hz
 * @returns sampled from time zero on
 * @remarks Source: F. Jacobsen, J. H. Rindel, J. Sound Vib. 117 (1987), time-reversed decay measurements.
 */
export function bandSignal(spectrum: Float64Array, sampleRate: number, filter: BandFilter): BandSignal {
  const size = spectrum.length - 2;
  const binHz = sampleRate / size;
  const steps = stepCount(filter, sampleRate, size);
  const first = Math.max(1, Math.ceil(filterFrequency(filter, -FADE_TO) / binHz));
  const last = Math.min(size / 2 - 1, Math.floor(filterFrequency(filter, FADE_TO) / binHz));
  const power = new Float64Array(Math.max(0, last - first + 1));
  const folded = new Float64Array(2 * steps);
  // The inverse transform divides by `steps`; an analytic signal has twice the positive frequencies.
  foldBand(folded, power, spectrum, first, {
    filter,
    fade: fadeOf(filter, sampleRate),
    binHz,
    scale: (2 * steps) / size,
  });
  return { values: inverseComplex(folded), stepSamples: size / steps, bins: { first, power } };
}

/** Filters the bins from `first` on and adds them to the circle. A loop in a function of its own is compiled the sooner. */
function foldBand(
  folded: Float64Array,
  power: Float64Array,
  spectrum: Float64Array,
  first: number,
  { filter, fade, binHz, scale }: { filter: BandFilter; fade: Fade; binHz: number; scale: number },
): void {
  const { exactHz, bandwidthHz } = filter;
  const rising = binHz / bandwidthHz;
  const falling = (exactHz * exactHz) / (binHz * bandwidthHz);
  const flatFrom = fade.low / binHz;
  const flatTo = Math.min(fade.high, fade.top) / binHz;
  const wrap = folded.length / 2 - 1;
  for (let n = 0; n < power.length; n++) {
    const k = first + n;
    // prototypeFrequency, written out.
    const omega = rising * k - falling / k;
    const square = omega * omega;
    const gain = k > flatFrom && k < flatTo ? 1 : fadeGain(fade, k * binHz);
    const magnitude = gain / (1 + square * square * square);
    power[n] = gain * magnitude;
    // Conjugate of the causal response: see filterResponse.
    const re = scale * magnitude * (1 - 2 * square);
    const im = scale * magnitude * omega * (2 - square);
    const a = spectrum[2 * k]!;
    const b = spectrum[2 * k + 1]!;
    const at = 2 * (k & wrap);
    folded[at]! += a * re - b * im;
    folded[at + 1]! += a * im + b * re;
  }
}

/**
 * Energy of a band, by Parseval: the sum of squares that the filtered signal has over all time.
 *
 * @param power - squared magnitude by bin, shape `[size / 2 + 1]`; any product of two spectra does
 */
export function bandEnergy(power: Float64Array, bins: BandBins): number {
  let sum = 0;
  for (let k = 0; k < bins.power.length; k++) sum += bins.power[k]! * power[bins.first + k]!;
  return sum / (power.length - 1);
}

function stepCount(filter: BandFilter, sampleRate: number, size: number): number {
  const cycles = STEPS_PER_CYCLE * filterFrequency(filter, 1);
  const wanted = Math.max(STEPS_PER_BANDWIDTH * filter.bandwidthHz, LEAST_STEP_RATE);
  const rate = cycles <= CHEAP_STEP_RATE ? Math.max(wanted, cycles) : wanted;
  let steps = 2;
  while (steps < size / 2 && steps * sampleRate < rate * size) steps *= 2;
  return steps;
}

/** Hz: from nothing at `lowest` to 1 at `low`, back from `high` to `highest`, and from `top` to half the sample rate. */
interface Fade {
  readonly lowest: number;
  readonly low: number;
  readonly high: number;
  readonly highest: number;
  readonly top: number;
  readonly nyquist: number;
}

function fadeOf(filter: BandFilter, sampleRate: number): Fade {
  const nyquist = sampleRate / 2;
  return {
    lowest: filterFrequency(filter, -FADE_TO),
    low: filterFrequency(filter, -FADE_FROM),
    high: filterFrequency(filter, FADE_FROM),
    highest: filterFrequency(filter, FADE_TO),
    top: nyquist * (1 - FADE_BELOW_NYQUIST),
    nyquist,
  };
}

function fadeGain({ lowest, low, high, highest, top, nyquist }: Fade, frequencyHz: number): number {
  const rising = smoothStep((frequencyHz - lowest) / (low - lowest));
  const falling = smoothStep((highest - frequencyHz) / (highest - high));
  return rising * falling * smoothStep((nyquist - frequencyHz) / (nyquist - top));
}

/** From 0 to 1 with a flat beginning and end; a polynomial, since it is needed for a third of all bins. */
function smoothStep(share: number): number {
  const x = Math.min(Math.max(share, 0), 1);
  return x * x * (3 - 2 * x);
}
