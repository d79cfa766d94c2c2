import { sumOfBins } from "../dsp/block-power.js";
import { fitLine } from "../dsp/line-fit.js";
import { forwardReal, inverseComplex, transformSize } from "../dsp/fft.js";
import { bandEdges, THIRD_OCTAVES } from "../standards/iec61260.js";
import { cutLags } from "./deconvolve.js";

/** A frequency at which a sweep goes on at another time than it should. */
export interface SweepBreak {
  readonly frequencyHz: number;
  /** How much later everything below arrives, s; negative where it comes earlier. */
  readonly belowLaterS: number;
}

/** So much is looked at, half of it to either side of the arrival. */
const LOOKED_AT_S = 1.3;
/** A band begins where it comes within 10 dB of its own loudest moment. */
const BEGINS_WITHIN = 0.1;
/** Bands whose loudest moment is not so far over what comes long before it are left to noise: 15 dB over the mean; noise alone reaches 12. */
const STANDS_OUT = 10 ** (15 / 10);
/** That mean is taken over the window's beginning. */
const BEFORE_SHARE = 1 / 4;
/** In times of one over the bandwidth, the filter's rise begins so long before the sound. Of a pulse. */
const RISE = 0.47;
/** Bands to either side whose median counts, and how many there must be. */
const NEIGHBOURS = 5;
const LEAST_NEIGHBOURS = 3;
/**
 * A step has to be larger than this, and than half of one over the bandwidth. In 20 clean studios bands from 100 Hz up begin within
 * 0.3 of that; loudspeakers delay their bass by a few milliseconds against the rest. A choice of ours.
 */
const LEAST_STEP_S = 0.004;
const STEP_BANDWIDTHS = 0.5;
/** What another sweep leaves begins anywhere, or later and later: all bands of a side but one differ by less of the step. */
const SCATTER = 1 / 3;
/** And the step fits better than a line by this, in mean distance. */
const BETTER_THAN_LINE = 0.6;

/**
 * Looks whether all of a sweep arrives at one time: where samples are lost while it sounds, everything below the frequency that it
 * had then arrives late against everything above, and where samples come twice, early.
 *
 * To a system that stays the same that would be a delay like any other, so the response explains it; but no loudspeaker has a step
 * of many milliseconds between two neighbouring bands.
 *
 * @param circular - deconvolved response by lag
 * @returns the largest step; null where there is none. Not seen: steps under 4 ms, and those in the lowest and highest three bands
 */
export function sweepBreak(
  circular: Float64Array,
  sampleRate: number,
  arrivalLag: number,
  sweptHz: readonly [number, number],
): SweepBreak | null {
  const size = transformSize(LOOKED_AT_S * sampleRate);
  if (size > circular.length) return null;
  const spectrum = forwardReal(cutLags(circular, Math.round(arrivalLag) - size / 2, size), size);
  const onsets = THIRD_OCTAVES.flatMap((band) => {
    const [fromHz, toHz] = bandEdges(band);
    if (fromHz < sweptHz[0] || toHz > Math.min(sweptHz[1], 0.45 * sampleRate)) return [];
    const onsetS = bandOnset(spectrum, sampleRate, fromHz, toHz);
    return onsetS === null ? [] : [{ fromHz, toHz, lateS: onsetS + RISE / (toHz - fromHz) }];
  });
  let largest: SweepBreak | null = null;
  for (let n = LEAST_NEIGHBOURS; n <= onsets.length - LEAST_NEIGHBOURS; n++) {
    const below = onsets.slice(Math.max(0, n - NEIGHBOURS), n).map(({ lateS }) => lateS);
    const above = onsets.slice(n, n + NEIGHBOURS).map(({ lateS }) => lateS);
    const step = median(below) - median(above);
    const { fromHz, toHz } = onsets[n]!;
    // Where the step is, both bands beside it take part in it.
    const isHere = Math.abs(below.at(-1)! - above[0]!) > Math.abs(step) / 2;
    if (!isHere || !isStep(below, above) || Math.abs(step) < Math.max(LEAST_STEP_S, STEP_BANDWIDTHS / (toHz - fromHz)))
      continue;
    if (Math.abs(step) > Math.abs(largest?.belowLaterS ?? 0)) largest = { frequencyHz: fromHz, belowLaterS: step };
  }
  return largest;
}

/** When a band begins after the middle of what is looked at, s; null where it does not stand out. */
function bandOnset(spectrum: Float64Array, sampleRate: number, fromHz: number, toHz: number): number | null {
  const size = spectrum.length - 2;
  const binHz = sampleRate / size;
  // Raised-cosine slopes that reach into the neighbours, so that little rings.
  const first = Math.floor(fromHz / 1.12 / binHz);
  const last = Math.min(size / 2, Math.ceil((toHz * 1.12) / binHz));
  const steps = transformSize(2 * (last - first + 1));
  const power = squares(inverseComplex(windowedBins(spectrum, first, last, steps)));
  const most = highestOf(power);
  const before = power.subarray(0, BEFORE_SHARE * steps);
  if (!(most > (STANDS_OUT * sumOfBins(before, 0, before.length - 1)) / before.length)) return null;
  const at = power.findIndex((value) => value >= BEGINS_WITHIN * most);
  return ((at / steps - 0.5) * size) / sampleRate;
}

function windowedBins(spectrum: Float64Array, first: number, last: number, steps: number): Float64Array {
  const bins = new Float64Array(2 * steps);
  for (let k = first; k <= last; k++) {
    const gain = Math.sin((Math.PI * (k - first)) / (last - first)) ** 2;
    bins[2 * (k - first)] = gain * spectrum[2 * k]!;
    bins[2 * (k - first) + 1] = gain * spectrum[2 * k + 1]!;
  }
  return bins;
}

function squares(values: Float64Array): Float64Array {
  const power = new Float64Array(values.length / 2);
  for (let n = 0; n < power.length; n++) power[n] = values[2 * n]! ** 2 + values[2 * n + 1]! ** 2;
  return power;
}

function highestOf(power: Float64Array): number {
  let most = 0;
  for (let n = 0; n < power.length; n++) if (power[n]! > most) most = power[n]!;
  return most;
}

function isStep(below: readonly number[], above: readonly number[]): boolean {
  const [low, high] = [median(below), median(above)];
  const within = SCATTER * Math.abs(low - high);
  const isTogether = (values: readonly number[], middle: number): boolean =>
    values.filter((value) => Math.abs(value - middle) > within).length <= 1;
  if (!isTogether(below, low) || !isTogether(above, high)) return false;
  const off = (values: readonly number[], expected: (n: number) => number): number =>
    values.reduce((sum, value, n) => sum + Math.abs(value - expected(n)), 0);
  const all = [...below, ...above];
  const { slope, intercept } = fitLine(all, 0, all.length)!;
  return off(below, () => low) + off(above, () => high) < BETTER_THAN_LINE * off(all, (n) => intercept + slope * n);
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[values.length >> 1]!;
}
