import { ARRIVAL_BAND } from "../dsp/analytic-band.js";
import { forwardReal, inverseComplex, transformSize } from "../dsp/fft.js";
import { paddedCut } from "../dsp/padded-cut.js";
import type { ImpulseResponse } from "../model.js";

/** The clock ratio at which a direct sound is sharpest. */
export interface ShapedClock {
  /** Recorded duration over played, re the one that the response was deconvolved with. */
  readonly ratio: number;
  /** How much higher its peak stands then. */
  readonly gainDb: number;
}

const MOST_PPM = 6000;
/** The direct sound spreads over less than this at the largest error: growth of 2 s, 1 to 8 kHz. */
const REACH_S = 0.03;
/** From one step to the next the band spreads by twice what it resolves; then finer around the best. */
const STEP_S = 3e-4;
const FINER = 8;

/**
 * Guesses the clock from the shape of a direct sound: a sweep divided by one of another rate arrives as a chirp.
 *
 * Coarse, since a loudspeaker's own delay looks the same: a plain crossover reads as some 100 ppm of a long sweep. A wrong
 * sample rate of a thousandth stands far out of that.
 *
 * @param growthS - the sweep's growth constant
 * @remarks Source: own derivation. At frequency f a clock off by e delays by e L ln f, so its phase is 2 pi e L f (ln f - 1).
 */
export function clockByShape(impulse: ImpulseResponse, growthS: number): ShapedClock {
  const { samples, sampleRate, arrivalSample } = impulse;
  const reach = Math.round(REACH_S * sampleRate);
  const size = transformSize(2 * reach);
  const spectrum = forwardReal(paddedCut(samples, Math.round(arrivalSample) - reach, 2 * reach), size);
  const { lowHz, highHz } = ARRIVAL_BAND;
  const middleHz = Math.sqrt(lowHz * highHz);
  const first = Math.ceil((lowHz * size) / sampleRate);
  const last = Math.min(size / 2 - 1, Math.floor((highHz * size) / sampleRate));
  const peakAt = (ppm: number): number => {
    const turned = new Float64Array(2 * size);
    for (let k = first; k <= last; k++) {
      const hz = (k * sampleRate) / size;
      const angle = 2 * Math.PI * ppm * 1e-6 * growthS * hz * (Math.log(hz / middleHz) - 1);
      const cosine = Math.cos(angle);
      const sine = Math.sin(angle);
      turned[2 * k] = spectrum[2 * k]! * cosine - spectrum[2 * k + 1]! * sine;
      turned[2 * k + 1] = spectrum[2 * k]! * sine + spectrum[2 * k + 1]! * cosine;
    }
    const analytic = inverseComplex(turned);
    let peak = 0;
    for (let n = 0; n < size; n++) peak = Math.max(peak, analytic[2 * n]! ** 2 + analytic[2 * n + 1]! ** 2);
    return peak;
  };
  const step = (1e6 * STEP_S) / (growthS * Math.log(highHz / lowHz));
  const own = peakAt(0);
  let best = { ppm: 0, peak: own };
  const search = (from: number, to: number, by: number): void => {
    for (let ppm = from; ppm <= to; ppm += by) {
      const peak = peakAt(ppm);
      if (peak > best.peak) best = { ppm, peak };
    }
  };
  search(-MOST_PPM, MOST_PPM, step);
  search(best.ppm - step, best.ppm + step, step / FINER);
  return { ratio: 1 + best.ppm * 1e-6, gainDb: own > 0 ? 10 * Math.log10(best.peak / own) : 0 };
}
