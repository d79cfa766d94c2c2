import { delayBetween } from "../dsp/delay-between.js";
import { forwardReal, transformSize } from "../dsp/fft.js";
import { fractionalShift } from "../dsp/fractional-shift.js";
import { paddedCut } from "../dsp/padded-cut.js";
import { logPower, powerOf } from "../dsp/log-power.js";
import type { ImpulseResponse } from "../model.js";
import { reflectedCoherence } from "./reflected-coherence.js";
import { bandEdges, bandsWithin } from "../standards/iec61260.js";

/** How far takes scatter in one third octave. */
export interface TakeSpread {
  readonly nominalHz: number;
  readonly exactHz: number;
  /** Standard deviation, dB. */
  readonly deviationDb: number;
  /** Largest difference from the first take, dB. */
  readonly differenceDb: number;
  /** Of every take, less the first's, dB. */
  readonly relativeDb: readonly number[];
}

export interface AveragedTakes {
  /** Mean of the aligned takes; the first take alone when they disagree. */
  readonly impulse: ImpulseResponse;
  /** Takes agree within 0.5 dB in every third octave 200 Hz-4 kHz, and so do their reflections. */
  readonly agree: boolean;
  /** Largest difference from the first take in a third octave 200 Hz-4 kHz, dB; 0 for one take. */
  readonly largestDifferenceDb: number;
  /** The differences behind that, less their own middle: what remains when only the gain was changed, dB. */
  readonly shapeDifferenceDb: number;
  /** Lowest coherence of reflections with the first take's, near 4 kHz; null for one take, or where noise hides them. */
  readonly coherence: number | null;
  /** Standard deviation over takes, root mean square over those bands, dB; null for one take. */
  readonly repeatabilityDb: number | null;
  /** The same by third octave of the whole swept range; empty for one take. */
  readonly spread: readonly TakeSpread[];
  /** Every take, aligned to the first. */
  readonly aligned: readonly ImpulseResponse[];
}

const AGREEMENT_DB = 0.5;
/** Averaged as impulse responses, reflections that agree less than this lose half a decibel: 10 lg((1 + 0.75) / 2). */
export const LEAST_COHERENCE = 0.75;
export const COHERENCE_HZ = 4000;
const ALIGN_BAND_HZ = [200, 8000] as const;
const ALIGN_BEFORE_S = 0.005;
const ALIGN_AFTER_S = 0.08;
/** The middle, by nominal frequency: here takes must agree to be averaged. */
const MIDDLE_HZ = [200, 4000] as const;

/**
 * Averages takes of the same loudspeaker and place as impulse responses, aligned to a fraction of a sample.
 *
 * @param takes - at least one, all of one sample rate
 * @throws {RangeError} if there is none, or if they differ in sample rate or swept band
 */
export function averageTakes(takes: readonly ImpulseResponse[]): AveragedTakes {
  const first = takes[0];
  if (!first) throw new RangeError("no takes");
  if (!takes.every((take) => isComparable(first, take))) throw new RangeError("takes of different rates or sweeps");
  if (takes.length === 1) {
    const nothing = {
      largestDifferenceDb: 0,
      shapeDifferenceDb: 0,
      coherence: null,
      repeatabilityDb: null,
      spread: [],
    };
    return { impulse: first, agree: true, aligned: [first], ...nothing };
  }
  const length = Math.min(...takes.map((take) => take.samples.length));
  const aligned = takes.map((take) => alignTo(first, take, length));
  const spread = spreadOf(aligned);
  const middle = spread.filter(({ nominalHz }) => nominalHz >= MIDDLE_HZ[0] && nominalHz <= MIDDLE_HZ[1]);
  const largestDifferenceDb = Math.max(0, ...middle.map(({ differenceDb }) => differenceDb));
  const squares = middle.reduce((sum, { deviationDb }) => sum + deviationDb ** 2, 0);
  const repeatabilityDb = middle.length > 0 ? Math.sqrt(squares / middle.length) : null;
  const coherences = aligned.slice(1).flatMap((take) => reflectedCoherence(first, take, COHERENCE_HZ) ?? []);
  const coherence = coherences.length > 0 ? Math.min(...coherences) : null;
  const agree = largestDifferenceDb <= AGREEMENT_DB && (coherence ?? 1) >= LEAST_COHERENCE;
  const impulse = agree ? meanOf(aligned) : first;
  const shapeDifferenceDb = Math.max(0, ...aligned.map((_, take) => shapeDifference(middle, take)));
  return { impulse, agree, largestDifferenceDb, shapeDifferenceDb, coherence, repeatabilityDb, spread, aligned };
}

/** Whether two responses can be averaged sample by sample: one rate, one swept band. */
export function isComparable(a: ImpulseResponse, b: ImpulseResponse): boolean {
  return a.sampleRate === b.sampleRate && a.sweptHz[0] === b.sweptHz[0] && a.sweptHz[1] === b.sweptHz[1];
}

function alignTo(first: ImpulseResponse, take: ImpulseResponse, length: number): ImpulseResponse {
  const rate = first.sampleRate;
  const stretch = (impulse: ImpulseResponse): Float64Array => {
    const from = Math.round(impulse.arrivalSample - ALIGN_BEFORE_S * rate);
    return paddedCut(impulse.samples, from, Math.round((ALIGN_BEFORE_S + ALIGN_AFTER_S) * rate));
  };
  const whole =
    Math.round(take.arrivalSample - ALIGN_BEFORE_S * rate) - Math.round(first.arrivalSample - ALIGN_BEFORE_S * rate);
  const delay = whole + delayBetween(stretch(first), stretch(take), rate, ALIGN_BAND_HZ).samples;
  const samples = fractionalShift(take.samples, -delay).subarray(0, length);
  return { ...take, samples, arrivalSample: take.arrivalSample - delay };
}

/** How far takes scatter in each third octave of the swept range. */
function spreadOf(takes: readonly ImpulseResponse[]): TakeSpread[] {
  const powers = takes.map(({ samples, sampleRate }) => {
    const size = transformSize(samples.length);
    return logPower(powerOf(forwardReal(samples, size)), sampleRate / size);
  });
  const thirds = bandsWithin(...takes[0]!.sweptHz).filter(({ fraction }) => fraction === 3);
  return thirds.map((band) => {
    const levels = powers.map((power) => 10 * Math.log10(power.mean(...bandEdges(band))));
    const mean = levels.reduce((sum, level) => sum + level, 0) / levels.length;
    const squares = levels.reduce((sum, level) => sum + (level - mean) ** 2, 0);
    return {
      nominalHz: band.nominalHz,
      exactHz: band.exactHz,
      deviationDb: Math.sqrt(squares / (levels.length - 1)),
      differenceDb: Math.max(...levels.map((level) => Math.abs(level - levels[0]!))),
      relativeDb: levels.map((level) => level - levels[0]!),
    };
  });
}

/** Largest distance of one take's differences from their median. */
function shapeDifference(bands: readonly TakeSpread[], take: number): number {
  const differences = bands.map(({ relativeDb }) => relativeDb[take]!).sort((a, b) => a - b);
  const median = differences[differences.length >> 1] ?? 0;
  return Math.max(0, ...differences.map((difference) => Math.abs(difference - median)));
}

/** Mean of aligned responses; their noise falls with their number. */
function meanOf(takes: readonly ImpulseResponse[]): ImpulseResponse {
  const first = takes[0]!;
  const share = 1 / takes.length;
  const samples = new Float64Array(Math.min(...takes.map((take) => take.samples.length)));
  for (const take of takes) for (let n = 0; n < samples.length; n++) samples[n]! += share * take.samples[n]!;
  const noises = takes.flatMap((take) => (take.noise ? [take.noise] : []));
  const noise =
    noises.length === takes.length && noises[0]
      ? {
          frequencyHz: noises[0].frequencyHz,
          powerPerSecond: noises[0].powerPerSecond.map(
            (_, k) => share * share * noises.reduce((sum, one) => sum + one.powerPerSecond[k]!, 0),
          ),
        }
      : null;
  const arrivalSample = share * takes.reduce((sum, take) => sum + take.arrivalSample, 0);
  return { ...first, samples, arrivalSample, noise };
}
