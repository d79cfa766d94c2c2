import { type BlockEnergies, fitDecay, type FittedDecay } from "./decay-model.js";

/** A decay that falls fast first and slowly later. */
export interface DoubleSlope {
  readonly earlyS: number;
  readonly lateS: number;
  /** Relative standard uncertainties. */
  readonly earlyShare: number;
  readonly lateShare: number;
  /** On the backward-integrated curve at the arrival: how far the late decay lies under the early one. */
  readonly apartDb: number;
  /** After the arrival, where the two are equally strong on that curve. */
  readonly turnS: number;
  /** From the arrival down to the turn, and from there to the noise. */
  readonly earlyRangeDb: number;
  readonly lateRangeDb: number;
}

/**
 * Times nearer to each other are one bent decay: in an evenly lined shoebox without scattering sound along the length L meets S L / 4 V
 * times fewer walls than sound in the mean, 2.2 times in a room of 6.1 x 4.6 x 2.9 m. A choice of ours.
 */
const LEAST_RATIO = 2.5;
/** Either slope must be followed so far: a fit over less says nothing. A choice of ours, after the 20 dB of T20 and the 10 dB of EDT. */
const LEAST_EARLY_DB = 8;
const LEAST_LATE_DB = 10;
/** What turns earlier is the direct sound with the first reflections. A choice of ours. */
const EARLIEST_TURN_S = 0.04;
/** So much likelier than one slope must two be, in twice the logarithm, beyond what else the model misses. A choice of ours: chance has
 * two more numbers to play with, exceeds 18 once in 10 000 times, and rooms of few modes are no perfect noise. */
const LIKELIER = 30;
/** Neither time may be less certain than this, standard: a fifth, expanded. A choice of ours. */
const MOST_UNCERTAIN = 0.1;

/**
 * Looks for two slopes in a decay, with noise under it.
 *
 * @param blocks - energies of a band, from the arrival on
 * @param guess - where to begin: the decay's time and what its noise is in one block
 * @returns null where one slope does, or the data do not carry two
 */
export function doubleSlope(blocks: BlockEnergies, guess: { timeS: number; noise: number }): DoubleSlope | null {
  const total = blocks.energy.reduce((sum, value) => sum + value, 0);
  const noise = Math.max(guess.noise, 1e-12 * total);
  const one = fitDecay(blocks, { slopes: [{ timeS: guess.timeS, energy: total }], noise });
  if (!one) return null;
  let two: FittedDecay | null = null;
  for (const [early, late, downDb] of STARTS) {
    const fit = fitDecay(blocks, {
      slopes: [
        { timeS: early * guess.timeS, energy: total },
        { timeS: late * guess.timeS, energy: total * 10 ** (-downDb / 10) },
      ],
      noise,
    });
    if (fit && (!two || fit.deviance < two.deviance)) two = fit;
  }
  return two && isBetter(one, two, blocks) ? described(two, blocks) : null;
}

/** Times re the guess, and how far the late part lies under the early one. */
const STARTS = [
  [0.7, 2, 15],
  [0.5, 1.5, 10],
  [0.9, 4, 25],
] as const;

function isBetter(one: FittedDecay, two: FittedDecay, { energy }: BlockEnergies): boolean {
  const excess = Math.max(1, two.deviance / (energy.length - 5));
  return (one.deviance - two.deviance) / excess > LIKELIER;
}

function described(fit: FittedDecay, blocks: BlockEnergies): DoubleSlope | null {
  const [early, late] = fit.slopes as [FittedDecay["slopes"][0], FittedDecay["slopes"][0]];
  const [earlyShare, lateShare] = fit.timeShares as [number, number];
  const apartDb = 10 * Math.log10(early.energy / late.energy);
  const turnS = apartDb / (60 / early.timeS - 60 / late.timeS);
  const earlyRangeDb = (60 * turnS) / early.timeS;
  // The knee: where the late decay's energy in a block is the noise's.
  const perBlock = late.energy * (1 - 10 ** ((-6 * blocks.blockS) / late.timeS));
  const kneeS = (late.timeS / 6) * Math.log10(Math.max(perBlock / fit.noise, 1e-9));
  const endS = Math.min(kneeS, blocks.fromS + blocks.blockS * blocks.energy.length);
  const lateRangeDb = (60 * (endS - turnS)) / late.timeS;
  const holds =
    late.timeS >= LEAST_RATIO * early.timeS &&
    turnS >= EARLIEST_TURN_S &&
    earlyRangeDb >= LEAST_EARLY_DB &&
    lateRangeDb >= LEAST_LATE_DB &&
    earlyShare <= MOST_UNCERTAIN &&
    lateShare <= MOST_UNCERTAIN;
  if (!holds) return null;
  return {
    ...{ earlyS: early.timeS, lateS: late.timeS, earlyShare, lateShare },
    ...{ apartDb, turnS, earlyRangeDb, lateRangeDb },
  };
}
