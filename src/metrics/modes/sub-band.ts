import { minimumPhase } from "../../dsp/minimum-phase.js";
import type { Pole } from "./pole.js";

/**
 * A stretch of frequencies, cut out so that modes in it stay what they are.
 *
 * The filter answers before its input: a value at time t depends on what follows t alone, so a mode that rings from the arrival
 * comes out as itself from the arrival on, times one complex number. It has minimum phase, and hence looks ahead no further
 * than its slopes ask for: one of linear phase would see quick decays when they are half gone.
 *
 * What is left is moved down to the range from 0 to half the new sample rate: real numbers, few of them.
 */
export interface SubBand {
  /** Modes are taken from here. */
  readonly coreHz: readonly [number, number];
  readonly lowRate: number;
  /** Samples of the low response per sample of the band. */
  readonly step: number;
  readonly sampleRate: number;
  /** What is moved to zero. */
  readonly zeroHz: number;
  /** The filter, turned to the band's centre: real and imaginary parts. */
  readonly real: Float64Array;
  readonly imaginary: Float64Array;
}

/** Where modes are looked for: from where loudspeakers and rooms begin to ring up to where modes overlap in any room. */
export const MODE_RANGE_HZ = [20, 290] as const;

const CORE_HZ = 30;
const STEP = 5;
const FILTER_S = 0.14;
const STOP = 10 ** (-60 / 20);

/** The bands that cover the range, side by side. */
export function subBands(lowRate: number): SubBand[] {
  const [from, to] = MODE_RANGE_HZ;
  const taps = lowPass(lowRate);
  return Array.from({ length: (to - from) / CORE_HZ }, (_, k) => subBand(from + (k + 0.5) * CORE_HZ, lowRate, taps));
}

function subBand(centreHz: number, lowRate: number, taps: Float64Array): SubBand {
  const turn = (2 * Math.PI * centreHz) / lowRate;
  const sampleRate = lowRate / STEP;
  return {
    coreHz: [centreHz - CORE_HZ / 2, centreHz + CORE_HZ / 2],
    lowRate,
    step: STEP,
    sampleRate,
    zeroHz: centreHz - sampleRate / 4,
    real: taps.map((tap, n) => tap * Math.cos(turn * n)),
    imaginary: taps.map((tap, n) => -tap * Math.sin(turn * n)),
  };
}

/** Flat over the core, falling as a raised cosine to -60 dB at the edges of what the new rate holds; 2 in the middle. */
function lowPass(lowRate: number): Float64Array {
  const stopHz = lowRate / STEP / 4;
  const levelDb = (frequencyHz: number): number => {
    const place = Math.min(1, Math.max(0, (frequencyHz - CORE_HZ / 2) / (stopHz - CORE_HZ / 2)));
    return 20 * Math.log10(2 * (STOP + (1 - STOP) * (0.5 + 0.5 * Math.cos(Math.PI * place))));
  };
  return minimumPhase(levelDb, lowRate, Math.round(FILTER_S * lowRate));
}

/** Samples of the band that so many samples of a low response give. */
export function bandLength({ real, step }: SubBand, samples: number): number {
  return Math.max(0, Math.floor((samples - real.length) / step) + 1);
}

/**
 * Cuts a band out of a low response.
 *
 * @param from - sample to begin at
 * @param count - samples of the band, at most `bandLength` of what is left from there
 * @returns shape `[count]`
 */
export function bandSignal(samples: Float64Array, band: SubBand, from: number, count: number): Float64Array {
  const { real, imaginary, lowRate, zeroHz, step } = band;
  const turn = (2 * Math.PI * zeroHz * step) / lowRate;
  const signal = new Float64Array(count);
  for (let m = 0; m < count; m++) {
    const at = from + m * step;
    let re = 0;
    let im = 0;
    for (let n = 0; n < real.length; n++) {
      const value = samples[at + n]!;
      re += value * real[n]!;
      im += value * imaginary[n]!;
    }
    signal[m] = re * Math.cos(turn * m) + im * Math.sin(turn * m);
  }
  return signal;
}

/** What the band's filter makes of a mode: real and imaginary part of a factor. */
export function bandGain({ real, imaginary, lowRate }: SubBand, { frequencyHz, dampingPerS }: Pole): [number, number] {
  const turn = (2 * Math.PI * frequencyHz) / lowRate;
  let re = 0;
  let im = 0;
  for (let n = 0; n < real.length; n++) {
    const size = Math.exp((-dampingPerS * n) / lowRate);
    const c = size * Math.cos(turn * n);
    const s = size * Math.sin(turn * n);
    re += real[n]! * c - imaginary[n]! * s;
    im += real[n]! * s + imaginary[n]! * c;
  }
  // Of a cosine the filter takes the half that turns forward.
  return [re / 2, im / 2];
}
