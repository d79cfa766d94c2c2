import { fitLine } from "../../dsp/line-fit.js";

/** Where a decay is cut, and what is known of the part cut off. */
export interface Truncation {
  /** Steps before the cut. */
  readonly steps: number;
  /** Mean energy per step of the noise under the decay; 0 when the record ends before the noise is reached. */
  readonly noise: number;
  /** Decay at the cut, dB per step, above 0. */
  readonly fallDb: number;
  /** Energy that the decay would still have brought after the cut. */
  readonly tailEnergy: number;
}

/** Below this, relative to the whole, nothing is looked at: it needs no more, and filters leave traces there. */
const DEEPEST = 1e-9;
const NOISE_SHARE = 0.1;
/** The late decay is fitted over 20 dB that end 8 dB above the noise, the noise measured from 8 dB past the knee. */
const ABOVE_NOISE_DB = 8;
const LATE_RANGE_DB = 20;
const PAST_KNEE_DB = 8;
const ROUNDS = 10;
/** The first guess is fitted from 3 to 20 dB below the start, and wants 6 dB at least. */
const FIRST_FROM = 10 ** -0.3;
const FIRST_LEAST = 10 ** -0.6;
const FIRST_TO = 10 ** -2;
/** The part cut off is judged by the energy of the 10 dB before it. */
const TAIL_RANGE_DB = 10;
/** A stretch this far below the fitted line is no longer the decay: the record was cut or faded there. */
const VANISHED_DB = 12;
const VANISHING_SPAN_DB = 2;
/** So far above the noise, a decay that has vanished shows. */
const CLEAR_DB = 15;

/**
 * Finds the knee at which a decay sinks into the noise.
 *
 * The line of the late decay and the level of the noise are estimated in turn until they agree. When no noise is reached
 * before the record ends, the decay is cut at the end and nothing is taken for noise. Unlike in the source the lines are fitted
 * to the backward-integrated decay, noise subtracted, rather than to levels of blocks: few modes make blocks too ragged.
 *
 * @param energy - energy per step from the arrival on, shape `[n]`
 * @param stepsPerValue - steps that hold one independent value: one over the bandwidth
 * @returns null when nothing stands out of the noise
 * @remarks Source: A. Lundeby et al., Acustica 81 (1995), from memory.
 */
export function truncateDecay(energy: Float64Array, stepsPerValue: number): Truncation | null {
  const usable = deepestStep(energy);
  let line = firstLine(energy, usable, stepsPerValue);
  if (!line) return null;
  const lastNoiseStart = Math.floor((1 - NOISE_SHARE) * usable);
  let noise = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const { knee, fallDb } = line;
    noise = mean(energy, Math.min(knee + PAST_KNEE_DB / fallDb, lastNoiseStart), usable);
    const next = lateLine(energy, Math.min(knee, usable), noise, fallDb, ABOVE_NOISE_DB);
    if (!next) break;
    line = next;
    if (Math.abs(next.knee - knee) < 0.1 / next.fallDb) break;
  }
  if (line.knee >= lastNoiseStart) return stillDecaying(energy, usable, line, stepsPerValue);
  const steps = Math.max(1, Math.round(lastOnLine(energy, line, line.knee, CLEAR_DB, stepsPerValue)));
  // By the line: the energy just before the knee is too much at the noise's mercy.
  const atCut = 10 ** ((line.startDb - line.fallDb * steps) / 10);
  return { steps, noise, fallDb: line.fallDb, tailEnergy: atCut / (1 - 10 ** (-line.fallDb / 10)) };
}

/** A straight decay, by its energy per step. */
interface DecayLine {
  /** Step at which the line meets the noise. */
  readonly knee: number;
  readonly fallDb: number;
  /** Level at step 0, dB. */
  readonly startDb: number;
}

function stillDecaying(energy: Float64Array, usable: number, first: DecayLine, stepsPerValue: number): Truncation {
  let line = first;
  for (let round = 0; round < ROUNDS; round++) {
    const next = lateLine(energy, usable, 0, line.fallDb, 0);
    if (!next) break;
    const settled = Math.abs(next.fallDb / line.fallDb - 1) < 1e-3;
    line = next;
    if (settled) break;
  }
  const steps = Math.max(1, Math.round(lastOnLine(energy, line, usable, 0, stepsPerValue)));
  return { steps, noise: 0, fallDb: line.fallDb, tailEnergy: tailAfter(energy, steps, line.fallDb) };
}

/** Energy of a decay after a step, from that of the 10 dB before. */
function tailAfter(energy: Float64Array, step: number, fallDb: number): number {
  const range = Math.max(1, Math.min(step, Math.round(TAIL_RANGE_DB / fallDb)));
  let sum = 0;
  for (let n = step - range; n < step; n++) sum += energy[n]!;
  const ratio = 10 ** ((-fallDb * range) / 10);
  return (sum * ratio) / (1 - ratio);
}

/** First guess, from the upper part of the decay with the last tenth taken for noise. */
function firstLine(energy: Float64Array, usable: number, stepsPerValue: number): DecayLine | null {
  const noise = mean(energy, (1 - NOISE_SHARE) * usable, usable);
  const left = new Float64Array(usable + 1);
  for (let n = usable - 1; n >= 0; n--) left[n] = left[n + 1]! + energy[n]! - noise;
  // Three standard deviations of what the noise leaves after its mean has been taken off.
  const doubt = 3 * noise * Math.sqrt(usable * stepsPerValue);
  const lowest = Math.max(left[0]! * FIRST_TO, doubt);
  if (!(left[0]! * FIRST_LEAST > lowest)) return null;
  let from = 0;
  while (left[from]! > left[0]! * FIRST_FROM) from++;
  let to = from;
  while (left[to]! > lowest) to++;
  // A decay too steep for its steps is taken whole.
  const start = to - from >= 3 ? from : 0;
  const levels = left.subarray(start, Math.max(to, 2)).map((value) => 10 * Math.log10(value));
  return lineThrough(levels, start, noise);
}

function lateLine(
  energy: Float64Array,
  kneeStep: number,
  noise: number,
  fallDb: number,
  aboveDb: number,
): DecayLine | null {
  const knee = Math.round(kneeStep);
  const to = Math.max(3, Math.round(knee - aboveDb / fallDb));
  const from = Math.max(0, Math.round(to - LATE_RANGE_DB / fallDb));
  if (to > knee) return null;
  // Where a line meets the noise it has the noise's level, so what follows it is a geometric sum from there.
  const tail = noise > 0 ? noise / (1 - 10 ** (-fallDb / 10)) : tailAfter(energy, knee, fallDb);
  return lineThrough(integrated(energy, from, knee, noise, tail).subarray(0, to - from), from, noise);
}

/** Level of the energy from each step on, noise subtracted, dB. */
function integrated(energy: Float64Array, from: number, to: number, noise: number, tail: number): Float64Array {
  const levels = new Float64Array(to - from);
  let left = tail;
  for (let n = to - 1; n >= from; n--) {
    left += energy[n]! - noise;
    levels[n - from] = 10 * Math.log10(left);
  }
  return levels;
}

/** Line of the energies per step whose sums from each step on have these levels; the first stands at step `offset`. */
function lineThrough(levels: Float64Array, offset: number, noise: number): DecayLine | null {
  const line = fitLine(levels, 0, levels.length);
  if (!line || !(line.slope < 0)) return null;
  const fallDb = -line.slope;
  // The integral of a decay is 1 / (1 - r) times its energy per step.
  const startDb = line.intercept + fallDb * offset + 10 * Math.log10(1 - 10 ** (-fallDb / 10));
  return { knee: (startDb - 10 * Math.log10(Math.max(noise, Number.MIN_VALUE))) / fallDb, fallDb, startDb };
}

/**
 * Last step, up to the end, at which the energy still keeps to the line: a record may have been faded or cut before.
 *
 * @param end - the knee, or the end of the record
 * @param clearDb - how far above the end's level a missing decay would show
 */
function lastOnLine(
  energy: Float64Array,
  line: DecayLine,
  end: number,
  clearDb: number,
  stepsPerValue: number,
): number {
  const lineDb = (step: number): number => line.startDb - line.fallDb * step;
  const shown = end - clearDb / line.fallDb;
  const whole = Math.max(2 * stepsPerValue, VANISHED_DB / line.fallDb);
  if (shown <= whole || levelOf(energy, shown - whole, shown) > lineDb(shown) - VANISHED_DB / 2) return end;
  const block = Math.max(1, stepsPerValue, VANISHING_SPAN_DB / line.fallDb);
  for (let last = shown; last > block; last -= block) {
    if (levelOf(energy, last - block, last) > lineDb(last - block / 2) - VANISHED_DB) return last;
  }
  return Math.min(end, block);
}

function levelOf(energy: Float64Array, from: number, to: number): number {
  return 10 * Math.log10(mean(energy, from, to));
}

function mean(energy: Float64Array, fromStep: number, toStep: number): number {
  const from = Math.max(0, Math.floor(fromStep));
  const to = Math.min(energy.length, Math.max(from + 1, Math.round(toStep)));
  let sum = 0;
  for (let n = from; n < to; n++) sum += energy[n]!;
  return sum / (to - from);
}

/** Step up to which the energy still to come is worth a look. */
function deepestStep(energy: Float64Array): number {
  let total = 0;
  for (let n = 0; n < energy.length; n++) total += energy[n]!;
  let left = 0;
  for (let n = energy.length - 1; n >= 0; n--) {
    left += energy[n]!;
    if (left > DEEPEST * total) return n + 1;
  }
  return 0;
}
