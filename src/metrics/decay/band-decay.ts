import { type BandFilter, filterFrequency } from "../../dsp/band-filter.js";
import { type BandBins, bandSignal } from "../../dsp/band-signal.js";
import { schroederDecay } from "./schroeder-decay.js";
import type { WholeSpectrum } from "./split-spectra.js";
import { type Truncation, truncateDecay } from "./truncate-decay.js";

/** The decay of one band from the arrival on. */
export interface BandDecay {
  readonly bins: BandBins;
  readonly stepS: number;
  readonly truncation: Truncation;
  /** Energy per step, noise included, shape `[n]`; up to the end of what the filter leaves untouched. */
  readonly energy: Float64Array;
  /** Steps, at the end of the transform's circle or of the record, that `energy` leaves out, and what they hold. */
  readonly stepsLeftOut: number;
  readonly energyLeftOut: number;
  /** Everything that arrives past the truncation, to the record's end. */
  readonly energyAfter: number;
  /** dB re its start, up to the truncation, noise subtracted, the part cut off added. */
  readonly curve: Float64Array;
  /** How far the curve falls from its start to the truncation. */
  readonly rangeDb: number;
}

/** In times of one over the bandwidth: how far ahead a value of the reversed filter looks with 99 % of its energy. */
const LOOK_AHEAD = 2;
/** The same for the filter's answer before time zero, which comes back at the end of the circle, to -66 dB. */
const RINGING = 5;
/** Cycles of the upper band edge per step up to which the steps follow the squared signal. */
const SLOW = 1 / 8;

/**
 * Filters one band of an impulse response and integrates its decay backwards from the knee with the noise.
 *
 * The integration starts at the arrival. What the time-reversed filter answers before it is left out, which makes the slope
 * of an exponential decay exact however long the filter rings.
 *
 * @returns null when no decay stands out of the noise
 */
export function bandDecay(spectra: WholeSpectrum, filter: BandFilter): BandDecay | null {
  const filtered = filteredEnergy(spectra, filter);
  if (!filtered) return null;
  const { energy, bins, stepS, filterSteps, recordSteps, usable } = filtered;
  const truncation = truncateDecay(energy, filterSteps);
  if (!truncation) return null;
  const kept = energy.slice(0, truncation.steps);
  let total = truncation.tailEnergy;
  for (let n = 0; n < kept.length; n++) total += kept[n]! -= truncation.noise;
  if (!(total > 0 && truncation.tailEnergy > 0)) return null;
  const stepsLeftOut = recordSteps - usable;
  const energyLeftOut = leftOut(truncation, usable, stepsLeftOut);
  let energyAfter = energyLeftOut;
  for (let n = truncation.steps; n < usable; n++) energyAfter += energy[n]!;
  return {
    bins,
    stepS,
    truncation,
    energy,
    stepsLeftOut,
    energyLeftOut,
    energyAfter,
    curve: schroederDecay(kept, truncation.tailEnergy),
    rangeDb: 10 * Math.log10(total / truncation.tailEnergy),
  };
}

/** How far the loudest step of a band stands over the mean of its last tenth, dB. */
export function peakOverNoiseDb(energy: Float64Array): number {
  const last = energy.subarray(Math.floor(0.9 * energy.length));
  const noise = last.reduce((sum, value) => sum + value, 0) / last.length;
  const peak = energy.reduce((most, value) => Math.max(most, value), 0);
  return peak > 0 ? 10 * Math.log10(peak / noise) : 0;
}

/** @returns null when the record is too short for the filter */
export function filteredEnergy(
  spectra: WholeSpectrum,
  filter: BandFilter,
): (Pick<BandDecay, "energy" | "bins" | "stepS"> & Record<"filterSteps" | "recordSteps" | "usable", number>) | null {
  const { values, stepSamples, bins } = bandSignal(spectra.spectrum, spectra.sampleRate, filter);
  const stepS = stepSamples / spectra.sampleRate;
  const filterSteps = 1 / (filter.bandwidthHz * stepS);
  const recordSteps = Math.floor(spectra.length / stepSamples);
  const circleSteps = values.length / 2;
  const usable = Math.floor(Math.min(recordSteps - LOOK_AHEAD * filterSteps, circleSteps - RINGING * filterSteps));
  if (usable < 1) return null;
  const energy = stepEnergies(values, usable, stepSamples, stepS * filterFrequency(filter, 1) <= SLOW);
  return { energy, bins, stepS, filterSteps, recordSteps, usable };
}

/**
 * Energy of the filtered signal in each step, by the trapezoidal rule.
 *
 * Where the steps follow the cycles it is the square of the signal itself, as the standard has it. Elsewhere half the squared
 * envelope stands for it, the same but for a ripple of less than half a cycle.
 */
function stepEnergies(values: Float64Array, count: number, stepSamples: number, slow: boolean): Float64Array {
  const energy = new Float64Array(count);
  // Of the imaginary part nothing, or as much as of the real part, each by half.
  const share = slow ? 0 : 0.5;
  let here = powerAt(values, 0, share);
  for (let n = 0; n < count; n++) {
    const next = powerAt(values, n + 1, share);
    energy[n] = 0.5 * stepSamples * (here + next);
    here = next;
  }
  return energy;
}

function powerAt(values: Float64Array, n: number, share: number): number {
  const re = values[2 * n]!;
  const im = values[2 * n + 1]!;
  return (1 - share) * re * re + share * im * im;
}

/** What the end of the record holds that the band's signal does not show: noise, and the decay's tail by its slope. */
function leftOut(truncation: Truncation, usable: number, stepsLeftOut: number): number {
  const remaining = (step: number): number => 10 ** ((-truncation.fallDb * (step - truncation.steps)) / 10);
  const tail = truncation.tailEnergy * (remaining(usable) - remaining(usable + stepsLeftOut));
  return truncation.noise * stepsLeftOut + tail;
}
