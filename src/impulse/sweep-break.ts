import { sumOfBins } from "../dsp/block-power.js";
import { forwardReal, inverseComplex, transformSize } from "../dsp/fft.js";
import { powerOf } from "../dsp/log-power.js";
import { peakOf } from "../dsp/peak.js";
import { bandEdges, THIRD_OCTAVES } from "../standards/iec61260.js";
import { cutLags } from "./deconvolve.js";
import type { Excitation } from "./excitation.js";

/** A frequency at which a sweep goes on at another time than it should. */
export interface SweepBreak {
  readonly frequencyHz: number;
  /** How much later everything below arrives, s; negative where it comes earlier. */
  readonly belowLaterS: number;
  /** How much after the arrival that is, s. */
  readonly belowAtS: number;
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
 * A step has to be larger than this, and than half of one over the bandwidth. In 20 clean studios bands from 160 Hz up begin within
 * 0.3 of one over it, at 125 Hz one within 0.6; loudspeakers delay their bass by a few milliseconds against the rest. A choice of ours.
 */
const LEAST_STEP_S = 0.004;
const STEP_BANDWIDTHS = 0.5;
/** As a natural logarithm. */
const THIRD_OCTAVE = Math.LN2 / 3;
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
 * @param circular - deconvolved response by lag, shape `[n]`
 * @param arrivalLag - samples
 * @remarks Source: a method of ours.
 * @returns the largest step; null where there is none. Not seen: steps under 4 ms, and those in the lowest and highest three bands
 */
export function sweepBreak(
  circular: Float64Array,
  arrivalLag: number,
  { sampleRate, sweptHz, growthS }: Pick<Excitation, "sampleRate" | "sweptHz" | "growthS">,
): SweepBreak | null {
  const size = transformSize(LOOKED_AT_S * sampleRate);
  if (growthS === null || size > circular.length) return null;
  const spectrum = forwardReal(cutLags(circular, Math.round(arrivalLag) - size / 2, size), size);
  const bands = THIRD_OCTAVES.flatMap((band, place): BandOnset[] => {
    const [fromHz, toHz] = bandEdges(band);
    if (fromHz < sweptHz[0] || toHz > Math.min(sweptHz[1], 0.45 * sampleRate)) return [];
    const onsetS = bandOnset(spectrum, sampleRate, fromHz, toHz);
    return onsetS === null ? [] : [{ place, fromHz, toHz, lateS: onsetS + RISE / (toHz - fromHz) }];
  });
  let largest: SweepBreak | null = null;
  for (let n = LEAST_NEIGHBOURS; n < bands.length; n++) {
    const below = bands.slice(Math.max(0, n - NEIGHBOURS), n);
    for (let m = n; m <= bands.length - LEAST_NEIGHBOURS; m++) {
      const above = bands.slice(m, m + NEIGHBOURS);
      const step = medianOf(below) - medianOf(above);
      // What was lost had notes of its own, which are in neither part.
      const most = 1 + Math.abs(step) / (growthS * THIRD_OCTAVE);
      if (bands[m]!.place - bands[n]!.place > most || !isStep(below, above, step)) continue;
      if (Math.abs(step) > Math.abs(largest?.belowLaterS ?? 0)) {
        // Bands between the two parts that go with the lower one belong to it: what is left was lost, or is torn.
        const goesBelow = (band: BandOnset): boolean => Math.abs(band.lateS - medianOf(below)) < Math.abs(step) / 2;
        const end = bands.findIndex((band, at) => at >= n && (at >= m || !goesBelow(band)));
        largest = { frequencyHz: bands[end - 1]!.toHz, belowLaterS: step, belowAtS: medianOf(below) };
      }
    }
  }
  return largest;
}

interface BandOnset {
  /** Among all third octaves. */
  readonly place: number;
  readonly fromHz: number;
  readonly toHz: number;
  /** Begins so much later than a pulse would. */
  readonly lateS: number;
}

function isStep(below: readonly BandOnset[], above: readonly BandOnset[], step: number): boolean {
  const size = Math.abs(step);
  const { fromHz, toHz } = above[0]!;
  if (size < Math.max(LEAST_STEP_S, STEP_BANDWIDTHS / (toHz - fromHz))) return false;
  // Where the step is, both bands beside it take part in it.
  if (Math.abs(below.at(-1)!.lateS - above[0]!.lateS) <= size / 2) return false;
  const distances = [below, above].map((side) => side.map(({ lateS }) => Math.abs(lateS - medianOf(side))));
  if (distances.some((side) => side.filter((off) => off > SCATTER * size).length > 1)) return false;
  return sumOf(distances.flat()) < BETTER_THAN_LINE * offLine([...below, ...above]);
}

/** Sum of the distances from the straight line over log frequency that fits best. */
function offLine(bands: readonly BandOnset[]): number {
  const mean = (of: (band: BandOnset) => number): number => sumOf(bands.map(of)) / bands.length;
  const place = mean((band) => band.place);
  const late = mean((band) => band.lateS);
  const slope = mean((band) => (band.place - place) * (band.lateS - late)) / mean((band) => (band.place - place) ** 2);
  return sumOf(bands.map((band) => Math.abs(band.lateS - late - slope * (band.place - place))));
}

/** When a band begins after the middle of what is looked at, s; null where it does not stand out. */
function bandOnset(spectrum: Float64Array, sampleRate: number, fromHz: number, toHz: number): number | null {
  const size = spectrum.length - 2;
  const binHz = sampleRate / size;
  // Raised-cosine slopes that reach into the neighbours, so that little rings.
  const first = Math.floor(fromHz / 1.12 / binHz);
  const last = Math.min(size / 2, Math.ceil((toHz * 1.12) / binHz));
  const steps = transformSize(2 * (last - first + 1));
  const power = powerOf(inverseComplex(windowedBins(spectrum, first, last, steps)));
  const most = peakOf(power);
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

function sumOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0);
}

function medianOf(bands: readonly BandOnset[]): number {
  return bands.map(({ lateS }) => lateS).sort((a, b) => a - b)[bands.length >> 1]!;
}
