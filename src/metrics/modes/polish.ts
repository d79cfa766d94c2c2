import { columnSpace } from "../../dsp/linear-algebra.js";
import { dampedSpectra, spectrumOf, type Stretch } from "./damped-spectrum.js";
import { bandwidthHz, type Pole } from "./pole.js";

/** A pole with what noise leaves uncertain of it: standard uncertainties. */
export interface PolishedPole extends Pole {
  readonly frequencyNoiseHz: number;
  readonly dampingNoisePerS: number;
}

const ROUNDS = 4;
/** Of what noise leaves uncertain. */
const NEAR_ENOUGH = 0.3;
/** Of the numerical slopes, in Hz and 1/s: far over rounding, far under the width of a mode. */
const NUDGE = 1e-3;
/** A fit that moves a mode by this share of its width has found another one. */
const FURTHEST = 0.3;

/**
 * Moves oscillations to where their sum fits the spectra of several responses best.
 *
 * A band's filter has cost some of each quick decay; here nothing is filtered. What does not move takes its part in the sum, and
 * a constant stands for all that is far away.
 *
 * @param poles - to be moved
 * @param others - not to be moved
 * @param responses - samples, each worth the same whatever its level
 * @returns the poles in order; null where the fit leads away from them
 * @remarks Source: G. H. Golub, V. Pereyra, SIAM J. Numer. Anal. 10 (1973), variable projection, with the simplification of
 *   L. Kaufman, BIT 15 (1975), and Gauss-Newton steps. From memory.
 */
export function polish(
  poles: readonly Pole[],
  others: readonly Pole[],
  responses: readonly Float64Array[],
  stretch: Stretch,
): PolishedPole[] | null {
  const fixed = [...others.flatMap((pole) => dampedSpectra(pole, stretch)), ...constants(stretch.angles.length)];
  const spectra = responses.map((samples) => ofLengthOne(spectrumOf(samples, stretch)));
  let moved = poles;
  let step = stepFrom(moved, fixed, spectra, stretch);
  for (let round = 0; step && round < ROUNDS; round++) {
    const { moves, noise } = step;
    if (moves.every((move, p) => Math.abs(move) < NEAR_ENOUGH * noise[p]!)) break;
    const next = moved.map(({ frequencyHz, dampingPerS }, k) => ({
      frequencyHz: frequencyHz + moves[2 * k]!,
      dampingPerS: dampingPerS + moves[2 * k + 1]!,
    }));
    if (next.some((pole, k) => isLost(pole, poles[k]!))) return null;
    const further = stepFrom(next, fixed, spectra, stretch);
    if (!further || further.left >= step.left) break;
    moved = next;
    step = further;
  }
  const noise = step?.noise;
  if (!noise) return null;
  return moved.map((pole, k) => ({ ...pole, frequencyNoiseHz: noise[2 * k]!, dampingNoisePerS: noise[2 * k + 1]! }));
}

/** By parameter: frequency and damping of the first pole, of the second, and so on. */
interface Step {
  /** Sum of squares that is left before the step. */
  readonly left: number;
  readonly moves: Float64Array;
  readonly noise: Float64Array;
}

function stepFrom(
  poles: readonly Pole[],
  fixed: readonly Float64Array[],
  spectra: readonly Float64Array[],
  stretch: Stretch,
): Step | null {
  const columns = [...poles.flatMap((pole) => dampedSpectra(pole, stretch)), ...fixed];
  const space = columnSpace(columns);
  if (!space) return null;
  const fit = space.fit(spectra);
  // The slope of each response's sum by each parameter, with what the strengths can make good taken out of it.
  const slopes = poles.flatMap((pole, k) =>
    parameters.flatMap((parameter) => {
      const [cosine, sine] = slopeOf(pole, parameter, stretch);
      return fit.solutions.map((shares) =>
        cosine.map((value, n) => shares[2 * k]! * value + shares[2 * k + 1]! * sine[n]!),
      );
    }),
  );
  const projected = space.fit(slopes).residuals;
  const count = spectra.length;
  const byParameter = Array.from({ length: 2 * poles.length }, (_, p) =>
    joined(projected.slice(p * count, (p + 1) * count)),
  );
  const residual = joined(fit.residuals);
  const step = columnSpace(byParameter);
  if (!step) return null;
  const left = residual.reduce((sum, value) => sum + value * value, 0);
  const freedom = Math.max(1, residual.length - byParameter.length - columns.length * count);
  return {
    left,
    moves: step.fit([residual]).solutions[0]!,
    noise: step.variances().map((variance) => Math.sqrt((variance * left) / freedom)),
  };
}

const parameters = ["frequencyHz", "dampingPerS"] as const;

function slopeOf(pole: Pole, parameter: keyof Pole, stretch: Stretch): [Float64Array, Float64Array] {
  const above = dampedSpectra({ ...pole, [parameter]: pole[parameter] + NUDGE }, stretch);
  const below = dampedSpectra({ ...pole, [parameter]: pole[parameter] - NUDGE }, stretch);
  const slope = (part: 0 | 1): Float64Array => above[part].map((value, n) => (value - below[part][n]!) / (2 * NUDGE));
  return [slope(0), slope(1)];
}

function isLost(pole: Pole, start: Pole): boolean {
  return (
    Math.abs(pole.frequencyHz - start.frequencyHz) > FURTHEST * bandwidthHz(start) ||
    Math.abs(pole.dampingPerS - start.dampingPerS) > FURTHEST * start.dampingPerS
  );
}

/** One that is real and one that is imaginary. */
function constants(bins: number): Float64Array[] {
  return [0, 1].map((part) => new Float64Array(2 * bins).fill(1, part * bins, (part + 1) * bins));
}

function ofLengthOne(values: Float64Array): Float64Array {
  const length = Math.sqrt(values.reduce((sum, value) => sum + value * value, 0));
  return length > 0 ? values.map((value) => value / length) : values;
}

function joined(parts: readonly Float64Array[]): Float64Array {
  const whole = new Float64Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
