import {
  ABSOLUTE_GATE,
  BLOCK_STEP_S,
  kWeighting,
  LOUDNESS_OFFSET,
  RELATIVE_GATE,
  type SecondOrderSection,
  STEPS_PER_BLOCK,
  STEPS_PER_SHORT_TERM,
} from "../standards/bs1770.js";

/** Loudness of a programme, LUFS; null where nothing is loud enough or long enough to be measured. */
export interface ProgrammeLoudness {
  /** Over the whole programme, gated. */
  readonly integrated: number | null;
  /** Highest over 400 ms. */
  readonly mostMomentary: number | null;
  /** Highest over 3 s. */
  readonly mostShortTerm: number | null;
}

/** Takes a programme piece by piece; keeps ten numbers for each second of it. */
export interface LoudnessMeter {
  /**
   * Takes the next piece.
   *
   * @param channels - shape `[channels][n]`, linear, full scale 1, all of one length; any length, 0 too
   * @throws {RangeError} if the number of channels is another or their lengths differ
   */
  push(channels: readonly ArrayLike<number>[]): void;
  result(): ProgrammeLoudness;
}

/**
 * Measures the loudness of a programme after ITU-R BS.1770.
 *
 * @param sampleRate - Hz
 * @param weights - one a channel: 1 for left, right, centre and mono, 1.41 for surrounds, 0 for the low-frequency channel
 * @returns a meter that has heard nothing yet
 * @throws {RangeError} if the rate is below 16 kHz or there is no channel
 * @remarks Source: ITU-R BS.1770-4, Annex 1, equations 2 to 7; the 3 s window: EBU Tech 3341.
 * @example
 * const meter = loudnessMeter(48_000, [1, 1]);
 * meter.push([left, right]);
 * meter.result().integrated; // -23 for a stereo tone of 1 kHz at -23 dBFS
 */
export function loudnessMeter(sampleRate: number, weights: readonly number[]): LoudnessMeter {
  if (weights.length === 0) throw new RangeError("weights must have one entry a channel, got none");
  const sections = kWeighting(sampleRate);
  const kept = weights.map(() => new Float64Array(KEPT));
  /** Weighted mean square of each step of 100 ms. */
  const steps: number[] = [];
  let samples = 0;
  let energy = 0;
  let stepBegan = 0;
  // Rates that 100 ms do not divide: the ends of steps are rounded each by itself, so that they never drift.
  const stepEnd = (): number => Math.round((steps.length + 1) * BLOCK_STEP_S * sampleRate);

  return {
    push(channels) {
      const length = channels[0]?.length ?? 0;
      if (channels.length !== weights.length || channels.some((channel) => channel.length !== length))
        throw new RangeError(`expected ${weights.length} channels of one length, got ${channels.length}`);
      for (let from = 0; from < length;) {
        const to = Math.min(length, from + stepEnd() - samples);
        channels.forEach((channel, n) => {
          if (weights[n] === 0) return;
          energy += weights[n]! * weightedEnergy(sections, kept[n]!, channel, from, to);
        });
        samples += to - from;
        from = to;
        if (samples < stepEnd()) continue;
        steps.push(energy / (samples - stepBegan));
        stepBegan = samples;
        energy = 0;
      }
    },
    result: () => ({
      integrated: integrated(steps),
      mostMomentary: most(steps, STEPS_PER_BLOCK),
      mostShortTerm: most(steps, STEPS_PER_SHORT_TERM),
    }),
  };
}

/** What one channel keeps: the last two samples before, between and after the sections. */
const KEPT = 6;

/**
 * Both sections in one loop, with what they keep in local variables: programmes are long. In the first direct form only one product and
 * one difference of a sample wait for the sample before.
 */
function weightedEnergy(
  [shelf, highPass]: readonly [SecondOrderSection, SecondOrderSection],
  kept: Float64Array,
  channel: ArrayLike<number>,
  from: number,
  to: number,
): number {
  const [b0, b1, b2] = shelf.b;
  const [a1, a2] = shelf.a;
  const [d0, d1, d2] = highPass.b;
  const [c1, c2] = highPass.a;
  let sample1 = kept[0]!;
  let sample2 = kept[1]!;
  let shelved1 = kept[2]!;
  let shelved2 = kept[3]!;
  let weighted1 = kept[4]!;
  let weighted2 = kept[5]!;
  let energy = 0;
  for (let n = from; n < to; n++) {
    const sample = channel[n]!;
    const shelved = b0 * sample + b1 * sample1 + b2 * sample2 - a2 * shelved2 - a1 * shelved1;
    const weighted = d0 * shelved + d1 * shelved1 + d2 * shelved2 - c2 * weighted2 - c1 * weighted1;
    sample2 = sample1;
    sample1 = sample;
    shelved2 = shelved1;
    shelved1 = shelved;
    weighted2 = weighted1;
    weighted1 = weighted;
    energy += weighted * weighted;
  }
  kept.set([sample1, sample2, shelved1, shelved2, weighted1, weighted2]);
  return energy;
}

function integrated(steps: readonly number[]): number | null {
  const loud = windows(steps, STEPS_PER_BLOCK).filter((power) => loudness(power) > ABSOLUTE_GATE);
  if (loud.length === 0) return null;
  const gate = loudness(mean(loud)) + RELATIVE_GATE;
  return loudness(mean(loud.filter((power) => loudness(power) > gate)));
}

function most(steps: readonly number[], size: number): number | null {
  const highest = windows(steps, size).reduce((above, power) => Math.max(above, power), 0);
  return highest > 0 ? loudness(highest) : null;
}

/** Mean power of every run of so many steps. */
function windows(steps: readonly number[], size: number): number[] {
  const count = Math.max(0, steps.length - size + 1);
  return Array.from({ length: count }, (_, n) => mean(steps.slice(n, n + size)));
}

function mean(powers: readonly number[]): number {
  return powers.reduce((sum, power) => sum + power, 0) / powers.length;
}

function loudness(power: number): number {
  return LOUDNESS_OFFSET + 10 * Math.log10(power);
}
