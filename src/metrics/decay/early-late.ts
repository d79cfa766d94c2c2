import { bandEnergy } from "../../dsp/band-signal.js";
import type { BandDecay } from "./band-decay.js";
import { TAIL_DOUBT } from "./decay-uncertainty.js";
import type { SplitPower, SplitSpectra } from "./split-spectra.js";

export interface EarlyLate {
  readonly early: number;
  readonly late: number;
  /** Standard uncertainties of both at this position, as shares of them: what noise and the part cut off leave. */
  readonly earlyDoubt: number;
  readonly lateDoubt: number;
}

/** A late part below three standard deviations of what the noise leaves is not known. */
const CERTAIN = 3;

/**
 * Energy of a band before and after a time limit, split first and filtered after.
 *
 * Cut at the knee like the decay: energies past it are taken off, the noise before it is subtracted, the lost tail is
 * added.
 *
 * @returns null when the decay is cut before the limit, or one of the parts is not above the noise
 * @remarks Source: ISO 3382-1:2009 A.2.3, time window before octave filter, from memory.
 */
export function earlyLate(decay: BandDecay, split: SplitPower, bandwidthHz: number): EarlyLate | null {
  const { truncation, stepS, bins } = decay;
  const lateSteps = truncation.steps - split.limitS / stepS;
  if (lateSteps <= 0) return null;
  const { noise } = truncation;
  const early = bandEnergy(split.early, bins) - (noise * split.limitS) / stepS;
  const late = bandEnergy(split.late, bins) - decay.energyAfter - noise * lateSteps + truncation.tailEnergy;
  // Noise of power n per step over a band of B Hz: its energy in T seconds scatters by n sqrt(T / B) / step, and its product
  // with a signal of energy E by sqrt(2 E n / (B step)).
  const scatter = (energy: number, steps: number): number =>
    Math.sqrt((noise * (noise * steps + 2 * Math.max(energy, 0))) / (bandwidthHz * stepS));
  const lateScatter = scatter(late, lateSteps);
  if (!(early > 0 && late > CERTAIN * lateScatter)) return null;
  return {
    early,
    late,
    earlyDoubt: scatter(early, split.limitS / stepS) / early,
    lateDoubt: Math.hypot(lateScatter, TAIL_DOUBT * truncation.tailEnergy) / late,
  };
}

/** The reversed filter gathers energy 2.25 / (pi B) early: its centroid, from the integral of group delay over its power. */
const EARLIER = 2.25 / Math.PI;

/**
 * Centre time of a band: first moment of its energy over its energy, of a filter without delay.
 *
 * @returns s; null when the energy is not above the noise
 */
export function bandCentreTime(decay: BandDecay, spectra: SplitSpectra, bandwidthHz: number): number | null {
  const { truncation, stepS, bins, energy } = decay;
  const { steps, noise, tailEnergy, fallDb } = truncation;
  const delayS = EARLIER / bandwidthHz;
  const kneeS = steps * stepS;
  // What was left out at the end stands at its middle.
  let afterMoment = decay.energyLeftOut * (energy.length + decay.stepsLeftOut / 2) * stepS;
  for (let n = steps; n < energy.length; n++) afterMoment += energy[n]! * (n * stepS + delayS);
  const decayConstantS = (10 * stepS) / (Math.LN10 * fallDb);
  const moment =
    bandEnergy(spectra.moment, bins) -
    afterMoment -
    (noise * steps * kneeS) / 2 +
    tailEnergy * (kneeS + delayS + decayConstantS);
  const total = bandEnergy(spectra.power, bins) - decay.energyAfter - noise * steps + tailEnergy;
  return total > 0 && moment > 0 ? moment / total : null;
}
