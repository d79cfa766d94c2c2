import { analyticBand } from "../../dsp/analytic-band.js";
import { decayEnd } from "../../dsp/decay-end.js";
import { fitLine } from "../../dsp/line-fit.js";
import { paddedCut } from "../../dsp/padded-cut.js";
import type { ImpulseResponse } from "../../model.js";
import { FLUTTER } from "../../standards/flutter.js";
import { evenedOut } from "./evened-out.js";
import { type Period, strongestPeriod } from "./strongest-period.js";

/** A train of echoes that come at equal intervals. */
export interface Flutter {
  readonly periodS: number;
  /** Standard uncertainty of the period. */
  readonly periodUncertaintyS: number;
  /** Of its echoes, 50 ms after the direct sound and re its peak. */
  readonly levelDb: number;
  /** How far its echoes stand above what lies between them. */
  readonly aboveDb: number;
  /** Time in which its echoes fall by 60 dB. */
  readonly t60S: number;
  /** How many echoes were followed. */
  readonly echoes: number;
}

/** A flutter is heard, and reflected by small things, from some hundred hertz up: choices of ours. */
const BAND = { lowHz: 800, highHz: 6000 } as const;
const BIN_S = 0.00025;
/** The first reflections come in any order. */
const FROM_S = 0.012;
const LONGEST_S = 0.6;
const LEVEL_AT_S = 0.05;
const FEWEST_ECHOES = 4;

/**
 * Looks for echoes at equal intervals, as bare walls that face each other send them to and fro.
 *
 * The energy of the band, its decay evened out, is held against itself delayed: a train repeats after one period, two and three, a room
 * without one never does but by chance.
 *
 * @returns null where there is none
 * @remarks Source: autocorrelation of the energy for regular echoes: H. Kuttruff, Room Acoustics, on echoes and flutter, from memory.
 */
export function findFlutter(impulse: ImpulseResponse): Flutter | null {
  const { sampleRate } = impulse;
  const lengthS = Math.min(LONGEST_S, decayEnd(impulse).first / sampleRate);
  if (impulse.sweptHz[1] < BAND.highHz || impulse.sweptHz[0] > BAND.lowHz) return null;
  const energy = energyBins(impulse, lengthS);
  const from = Math.round(FROM_S / BIN_S);
  const { evened, to } = evenedOut(energy, from);
  const period = strongestPeriod(evened);
  if (!period) return null;
  const peak = energy.slice(0, Math.ceil(0.001 / BIN_S)).reduce((most, value) => Math.max(most, value), 0);
  return described(energy, { from, to }, period, peak);
}

/** Energy of the band in bins from the arrival on. */
function energyBins(impulse: ImpulseResponse, lengthS: number): Float64Array {
  const { samples, sampleRate, arrivalSample } = impulse;
  const marginS = 0.01;
  const from = Math.floor(arrivalSample - marginS * sampleRate);
  const count = Math.ceil((lengthS + 2 * marginS) * sampleRate);
  const { values } = analyticBand(paddedCut(samples, from, count), sampleRate, 1, BAND);
  const bins = new Float64Array(Math.floor(lengthS / BIN_S));
  const perBin = BIN_S * sampleRate;
  // The direct sound's bin is centred on the arrival.
  const first = arrivalSample - from - perBin / 2;
  for (let n = Math.ceil(first); n < values.length / 2; n++) {
    const bin = Math.floor((n - first) / perBin);
    if (bin >= bins.length) break;
    bins[bin]! += values[2 * n]! ** 2 + values[2 * n + 1]! ** 2;
  }
  return bins;
}

function described(
  energy: Float64Array,
  { from, to }: { from: number; to: number },
  period: Period,
  peak: number,
): Flutter | null {
  const phase = bestPhase(energy, from, to, period.bins);
  const echoes: { atS: number; levelDb: number; aroundDb: number }[] = [];
  for (let k = 0; from + phase + k * period.bins < to - 1; k++) {
    const at = from + phase + k * period.bins;
    const value = largestNear(energy, at);
    const between = median(
      energy.slice(Math.ceil(at + 2), Math.max(Math.ceil(at + 3), Math.floor(at + period.bins - 1))),
    );
    if (value > 0 && between > 0)
      echoes.push({
        atS: at * BIN_S,
        levelDb: 10 * Math.log10(value / peak),
        aroundDb: 10 * Math.log10(value / between),
      });
  }
  if (echoes.length < FEWEST_ECHOES) return null;
  // The median of exponentially scattered energies lies 10 lg (1 / ln 2) below their mean; the largest of three bins lies above it.
  const aboveDb = echoes.reduce((sum, { aroundDb }) => sum + aroundDb, 0) / echoes.length - CHANCE_DB;
  if (aboveDb < FLUTTER.leastAboveDb) return null;
  const line = fitLine(
    echoes.map(({ levelDb }) => levelDb),
    0,
    echoes.length,
  )!;
  if (!(line.slope < 0)) return null;
  const first = echoes[0]!.atS;
  const periodS = period.bins * BIN_S;
  return {
    periodS,
    periodUncertaintyS: period.uncertaintyBins * BIN_S,
    levelDb: line.intercept + (line.slope * (LEVEL_AT_S - first)) / periodS,
    aboveDb,
    t60S: (-60 * periodS) / line.slope,
    echoes: echoes.length,
  };
}

/** By how much the largest of three bins of noise lies above the median of many: 10 lg of (1 + 1/2 + 1/3) / ln 2 at most. */
const CHANCE_DB = 10 * Math.log10((1 + 1 / 2 + 1 / 3) / Math.LN2);

/** Where in the period the echoes come: where the logarithm of the energy, summed over all periods, is highest. */
function bestPhase(energy: Float64Array, from: number, to: number, bins: number): number {
  let best = 0;
  let most = -Infinity;
  for (let phase = 0; phase < bins; phase++) {
    let sum = 0;
    let count = 0;
    for (let at = from + phase; at < to; at += bins) {
      sum += Math.log(energy[Math.round(at)]! + Number.MIN_VALUE);
      count++;
    }
    if (count > 0 && sum / count > most) [best, most] = [phase, sum / count];
  }
  return best;
}

function largestNear(energy: Float64Array, at: number): number {
  const n = Math.round(at);
  return Math.max(energy[n - 1] ?? 0, energy[n] ?? 0, energy[n + 1] ?? 0);
}

function median(values: Float64Array): number {
  const sorted = values.slice().sort();
  return sorted[sorted.length >> 1] ?? 0;
}
