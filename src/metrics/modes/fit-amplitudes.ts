import { columnSpace } from "../../dsp/linear-algebra.js";
import { decayTimeS, type Pole } from "./pole.js";
import type { BandView } from "./band-view.js";
import { bandGain, type SubBand } from "./sub-band.js";

/** An oscillation with its strength. */
export interface Candidate extends Pole {
  /** Amplitude at the arrival in each response, on its own scale, and phase there: of a cosine, radians. */
  readonly amplitudes: readonly number[];
  readonly phases: readonly number[];
  /** In how many of its own standard uncertainties the amplitude is, by response. */
  readonly significances: readonly number[];
  /** Energy over all responses, each on the scale at which its noise is 1. */
  readonly energy: number;
}

/**
 * Fits the strength of each oscillation in each response, all at once.
 *
 * @returns as many as `poles`, in order; none where they cannot be told apart
 */
export function fitAmplitudes(view: BandView, poles: readonly Pole[]): Candidate[] {
  const { band, startS, signals, scales } = view;
  const count = signals[0]!.length;
  const columns = poles.flatMap((pole) => oscillation(pole, band, count));
  const space = columns.length === 0 ? null : columnSpace(columns);
  if (!space) return [];
  const fit = space.fit(signals);
  const variances = space.variances();
  const freedom = Math.max(1, count - columns.length);
  const errors = fit.residuals.map((left) => left.reduce((sum, value) => sum + value * value, 0) / freedom);
  return poles.map((pole, p) => {
    const strengths = fit.solutions.map((shares) => Math.hypot(shares[2 * p]!, shares[2 * p + 1]!));
    const variance = 0.5 * (variances[2 * p]! + variances[2 * p + 1]!);
    // From the band's start back to the arrival, and from behind its filter to before it.
    const gain = bandGain(band, pole);
    const back = Math.exp(pole.dampingPerS * startS) / Math.hypot(...gain);
    const turn = 2 * Math.PI * pole.frequencyHz * startS + Math.atan2(gain[1], gain[0]);
    return {
      ...pole,
      amplitudes: strengths.map((strength, s) => strength * back * scales[s]!),
      phases: fit.solutions.map((shares) => Math.atan2(-shares[2 * p + 1]!, shares[2 * p]!) - turn),
      significances: strengths.map((strength, s) => strength / Math.sqrt(variance * errors[s]!)),
      energy: decayTimeS(pole) * strengths.reduce((sum, strength) => sum + (strength * back) ** 2, 0),
    };
  });
}

/** A damped cosine and a damped sine, as the band has moved them. */
function oscillation({ frequencyHz, dampingPerS }: Pole, band: SubBand, count: number): [Float64Array, Float64Array] {
  const turn = (2 * Math.PI * (frequencyHz - band.zeroHz)) / band.sampleRate;
  const fall = dampingPerS / band.sampleRate;
  const cosine = new Float64Array(count);
  const sine = new Float64Array(count);
  for (let n = 0; n < count; n++) {
    const level = Math.exp(-fall * n);
    cosine[n] = level * Math.cos(turn * n);
    sine[n] = level * Math.sin(turn * n);
  }
  return [cosine, sine];
}
