import { columnSpace } from "../../dsp/linear-algebra.js";

/** Energies of a decay, in blocks of equal length from the arrival on, noise included. */
export interface BlockEnergies {
  readonly energy: Float64Array;
  readonly blockS: number;
  /** Time at which the first block begins, after the arrival. */
  readonly fromS: number;
  /** Independent values that one block holds: bandwidth times length, times places averaged. */
  readonly valuesPerBlock: number;
}

/** One exponential of a decay. */
export interface Slope {
  /** Time to fall by 60 dB. */
  readonly timeS: number;
  /** Energy from the arrival on. */
  readonly energy: number;
}

/** Exponentials over a steady noise, fitted to a decay. */
export interface FittedDecay {
  /** The faster first. */
  readonly slopes: readonly Slope[];
  /** Relative standard uncertainty of each slope's time. */
  readonly timeShares: readonly number[];
  /** Energy of the noise in one block. */
  readonly noise: number;
  /** Twice the log-likelihood that is missing to a perfect fit. */
  readonly deviance: number;
}

const FALL = 6 * Math.LN10;
const ROUNDS = 60;
const SETTLED = 1e-10;
const LONGEST_STEP = 1.5;

/**
 * Fits one or two exponentials and a noise to the energies of a decay, by maximum likelihood.
 *
 * A band of a diffuse decay is noise under a falling envelope: the energy of a block is a sum of squares and scatters as a Gamma variate
 * whose relative variance is one over its independent values. So loud and soft blocks weigh alike, which a straight line through the
 * backward-integrated curve, whose errors hang together, does not achieve. Solved by Fisher scoring in the logarithms of all quantities,
 * which keeps them above zero.
 *
 * @param start - where to begin: slopes and noise, all above 0
 * @returns null where the slopes cannot be told apart
 * @remarks Source: the model, sum of exponentials and a noise term: N. Xiang, P. M. Goggans, J. Acoust. Soc. Am. 110 (2001) and 113 (2003),
 *   who fit the backward-integrated curve; the likelihood of block energies is ours. From memory.
 */
export function fitDecay(
  blocks: BlockEnergies,
  start: { slopes: readonly Slope[]; noise: number },
): FittedDecay | null {
  const { energy, valuesPerBlock } = blocks;
  let values = [
    ...start.slopes.flatMap(({ timeS, energy: total }) => [Math.log(timeS), Math.log(total)]),
    Math.log(start.noise),
  ];
  let state = stateAt(values, blocks);
  let damping = 1;
  for (let round = 0; round < ROUNDS; round++) {
    const step = stepOf(state);
    if (!step) return null;
    const longest = Math.max(...step.map(Math.abs));
    const scale = Math.min(damping, LONGEST_STEP / longest);
    const next = values.map((value, k) => value + scale * step[k]!);
    const there = stateAt(next, blocks);
    if (!(there.deviance <= state.deviance + SETTLED)) {
      damping /= 4;
      if (damping < 1e-4) break;
      continue;
    }
    damping = Math.min(1, 2 * damping);
    const settled = state.deviance - there.deviance < SETTLED * (1 + state.deviance) && longest * scale < 1e-6;
    [values, state] = [next, there];
    if (settled) break;
  }
  const variances = spaceOf(state)?.variances();
  if (!variances) return null;
  // What the model does not explain scatters more than chance would have it: uncertainties grow with it.
  const excess = Math.max(1, (state.deviance / (energy.length - values.length)) * gammaScale(valuesPerBlock));
  const slopes = start.slopes
    .map((_, k) => ({
      timeS: Math.exp(values[2 * k]!),
      energy: Math.exp(values[2 * k + 1]!),
      share: Math.sqrt(variances[2 * k]! * excess),
    }))
    .sort((a, b) => a.timeS - b.timeS);
  return {
    slopes: slopes.map(({ timeS, energy: total }) => ({ timeS, energy: total })),
    timeShares: slopes.map(({ share }) => share),
    noise: Math.exp(values.at(-1)!),
    deviance: state.deviance,
  };
}

/** Null where one of the quantities leaves no trace in the energies any more, or two leave the same. */
function spaceOf({ columns }: State): ReturnType<typeof columnSpace> {
  // A record may end before any noise is reached: then there is nothing to fit it to.
  const [slopes, noise] = [columns.slice(0, -1), columns.at(-1)!];
  if (!slopes.every(isClear)) return null;
  return columnSpace(isClear(noise) ? columns : slopes);
}

function isClear(column: Float64Array): boolean {
  const length = column.reduce((sum, value) => sum + value * value, 0);
  return length > LEAST_TRACE && Number.isFinite(length);
}

function stepOf(state: State): number[] | null {
  const step = spaceOf(state)?.fit([state.residual]).solutions[0];
  return step ? state.columns.map((_, k) => step[k] ?? 0) : null;
}

/** In the square of standard uncertainties: below it a quantity could be anything. */
const LEAST_TRACE = 1e-12;

/** A block's deviance is 1 on average for many values, more for few: 1 + 1 / (6 values), the Gamma distribution's first correction. */
function gammaScale(valuesPerBlock: number): number {
  return 1 / (1 + 1 / (6 * valuesPerBlock));
}

interface State {
  readonly deviance: number;
  readonly residual: Float64Array;
  readonly columns: readonly Float64Array[];
}

function stateAt(values: readonly number[], { energy, blockS, fromS, valuesPerBlock }: BlockEnergies): State {
  const slopes = (values.length - 1) / 2;
  const noise = Math.exp(values.at(-1)!);
  const columns = values.map(() => new Float64Array(energy.length));
  const residual = new Float64Array(energy.length);
  const weight = Math.sqrt(valuesPerBlock);
  let deviance = 0;
  for (let n = 0; n < energy.length; n++) {
    let expected = noise;
    const from = fromS + n * blockS;
    for (let k = 0; k < slopes; k++) {
      const rate = FALL / Math.exp(values[2 * k]!);
      const total = Math.exp(values[2 * k + 1]!);
      const [before, after] = [Math.exp(-rate * from), Math.exp(-rate * (from + blockS))];
      const part = total * (before - after);
      expected += part;
      columns[2 * k]![n] = total * rate * (from * before - (from + blockS) * after);
      columns[2 * k + 1]![n] = part;
    }
    columns.at(-1)![n] = noise;
    const ratio = energy[n]! / expected;
    deviance += 2 * valuesPerBlock * (ratio - 1 - Math.log(Math.max(ratio, Number.MIN_VALUE)));
    residual[n] = weight * (ratio - 1);
    for (const column of columns) column[n]! *= weight / expected;
  }
  return { deviance, residual, columns };
}
